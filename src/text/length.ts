/** Distances as text: rounded as they deserve, never finer than what is known. */
import { atMost, fixed, NO_VALUE, signed } from './number';

/** from here on half centimetres are no longer said */
const WHOLE_FROM_CM = 10;
/** less than that is no difference between A and B, cm */
const LEVEL_CM = 0.05;

/** "3", "3.5", "12": the size in cm without its unit, as cmText has it. */
export function cmNumber(cm: number): string {
  const size = Math.abs(cm);
  return size < WHOLE_FROM_CM ? atMost(Math.round(size * 2) / 2, 1) : atMost(size, 0);
}

/** "3 cm", "3.5 cm", "12 cm": the size of a move or a path. */
export function cmText(cm: number): string {
  return `${cmNumber(cm)} cm`;
}

/** "2.5 cm": the size of a move as it was noted, to a millimetre. */
export function notedCmText(cm: number): string {
  return `${atMost(Math.abs(cm), 1)} cm`;
}

/** "3 centimetres" */
export function cmSpoken(cm: number): string {
  const text = cmNumber(cm);
  return text === '1' ? '1 centimetre' : `${text} centimetres`;
}

/** "4 mm", "1.3 cm", "12 cm": a scatter, an uncertainty or a change; never 0. */
export function spanText(cm: number): string {
  const size = Math.abs(cm);
  if (size < 0.95) return `${Math.max(1, Math.round(size * 10))} mm`;
  return `${atMost(size, size < WHOLE_FROM_CM ? 1 : 0)} cm`;
}

/** "4 mm", "2.5 cm", "1.37 m": the size, below 1 cm in whole mm, from 1 m on in metres. */
export function lengthFigure(cm: number): string {
  const size = Math.abs(cm);
  if (size < 0.95) return `${fixed(size * 10, 0)} mm`;
  if (size < 99.95) return `${fixed(size, 1)} cm`;
  return `${fixed(size / 100, 2)} m`;
}

/** "+2.5 cm" */
export function cmFigure(cm: number): string {
  return `${signed(cm, 1)} cm`;
}

/** What A and B are called, where that isn’t their letters. */
export interface MicNames {
  a: string;
  b: string;
}

const LETTERS: MicNames = { a: 'A', b: 'B' };

/** Which is farther from the drum: "B 2.5 cm further", "A 2.5 cm further", "B at the same distance as A". Never "closer": that is what a move is called. */
export function pathFigure(pathCm: number | null, { a, b } = LETTERS): string {
  if (pathCm === null) return NO_VALUE;
  return Math.abs(pathCm) < LEVEL_CM
    ? `${b} at the same distance as ${a}`
    : `${pathCm > 0 ? b : a} ${lengthFigure(pathCm)} further`;
}

/** The same in a sentence, rounded as a move is: "B 2.5 cm further", "A 2.5 cm further". */
export function pathText(pathCm: number, { a, b } = LETTERS): string {
  return cmNumber(pathCm) === '0'
    ? `${b} at the same distance as ${a}`
    : `${pathCm > 0 ? b : a} ${cmText(pathCm)} further`;
}

/** What changed: "2.4 cm further" */
export function furtherText(cm: number): string {
  return `${spanText(cm)} ${cm > 0 ? 'further' : 'closer'}`;
}
