/** What microphones and pairs are called on paper, where nothing can be looked up. */
import { microphoneName, patchedName } from '../../text/names';
import { type KitSheet, type Microphone, microphoneOf, type Pair } from '../document/model';

/** A label that names one microphone only: its input follows where there is no label, or two have the same. */
export function printedName(sheet: KitSheet, id: string): string {
  const one = microphoneOf(sheet, id);
  if (!one) return id;
  const label = one.label.trim();
  const input = one.input.trim();
  if (label === '') return input === '' ? `${microphoneName('')} (${id})` : patchedName(label, input);
  const alike = sheet.microphones.filter((other) => other.label.trim() === label);
  if (alike.length < 2) return label;
  const apart = input !== '' && alike.every((other: Microphone) => other === one || other.input.trim() !== input);
  return apart ? patchedName(label, input) : `${label} (${id})`;
}

/** "Snare top → Snare bottom" */
export const printedPair = (sheet: KitSheet, { a, b }: Pair): string =>
  `${printedName(sheet, a)} → ${printedName(sheet, b)}`;
