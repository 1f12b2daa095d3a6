/** The bench in words: what stands there, where each mic is, what the curve comes to. */
import { hzText, notchesText } from '../../text/frequency';
import { lengthFigure } from '../../text/length';
import { dbFigure, gainText } from '../../text/level';
import { fixed, NO_VALUE } from '../../text/number';
import { msText } from '../../text/time';
import { sumDbAt } from '../bench/comb';
import { capsuleAt, hitPlace, roomOf } from '../bench/drums';
import { type BenchFigures, LEAST_DELAY_MS, sideOf } from '../bench/figures';
import type { Bench, DrumId, HitId, MicId } from '../bench/model';

export const DRUM_WORDS: Readonly<Record<DrumId, string>> = {
  snare: 'Snare',
  kick: 'Kick',
  kit: 'Kit with two overheads',
};

export const HIT_WORDS: Readonly<Record<HitId, string>> = {
  snare: 'Snare',
  kick: 'Kick',
  'floor-tom': 'Floor tom',
};

/** by the place of the room in the drum's list */
const ROOM_WORDS: Readonly<Record<DrumId, readonly string[]>> = {
  snare: ['above the drum', 'below the drum'],
  kick: ['on the beater side', 'inside the drum', 'in front of the drum'],
  kit: ['over the kit'],
};

export const micName = (mic: MicId): string => mic.toUpperCase();

export const pushWords = (push: 1 | -1): string => (push > 0 ? 'up' : 'down');

/** "10.4 cm from the hit, above the drum: 8 cm left, 17 cm up; first push down" */
export function micPlaceWords(bench: Bench, mic: MicId, figures: BenchFigures): string {
  const { at } = hitPlace(bench);
  const capsule = capsuleAt(bench, bench[mic]);
  const [right, up] = [capsule.xCm - at.xCm, capsule.yCm - at.yCm];
  const room = ROOM_WORDS[bench.drum][roomOf(bench.drum, bench[mic].grille)] ?? '';
  return `${lengthFigure(figures[mic].pathCm)} from the hit, ${room}: ${lengthFigure(right)} ${
    right < 0 ? 'left' : 'right'
  }, ${lengthFigure(up)} ${up < 0 ? 'down' : 'up'}; first push ${pushWords(figures[mic].push)}`;
}

/** The row of figures: what it is called and what it comes to. */
export interface FigureWords {
  id: 'path' | 'delay' | 'notch' | 'polarity' | 'level';
  name: string;
  value: string;
}

function notchFigure({ notchesHz, polarity, delayMs }: BenchFigures): string {
  if (notchesHz === null) return NO_VALUE;
  return polarity === 'inverted' && Math.abs(delayMs) < LEAST_DELAY_MS ? 'everywhere' : notchesText(notchesHz);
}

export function figureRow(figures: BenchFigures, levels: Bench['levels']): FigureWords[] {
  const row: FigureWords[] = [
    { id: 'path', name: pathName(figures.pathCm), value: lengthFigure(figures.pathCm) },
    { id: 'delay', name: delayName(figures.delayMs), value: `${fixed(Math.abs(figures.delayMs), 2)} ms` },
    { id: 'notch', name: 'Notches', value: notchFigure(figures) },
    { id: 'polarity', name: 'First pushes', value: figures.polarity },
  ];
  if (levels === 'distance')
    row.push({
      id: 'level',
      name: `Ratio ${fixed(figures.ratio, 1)} : 1`,
      value: dbFigure(figures.levelDifferenceDb),
    });
  return row;
}

const LEAST_CM = 0.05;
const pathName = (cm: number): string =>
  Math.abs(cm) < LEAST_CM ? 'Path, no difference' : `Path, ${cm > 0 ? 'B' : 'A'} further`;
const LEAST_MS = 0.005;
const delayName = (ms: number): string =>
  Math.abs(ms) < LEAST_MS ? 'Delay, none' : `Delay, ${ms > 0 ? 'B' : 'A'} later`;

/** The picture of both arrivals, for who doesn't see it. */
export function arrivalWords({ a, b, delayMs, polarity }: BenchFigures): string {
  const together = Math.abs(delayMs) < LEAST_MS;
  const when = together ? 'A and B together' : `${delayMs > 0 ? 'A first, B' : 'B first, A'} ${msText(delayMs)} later`;
  return `${when}. First push of A ${pushWords(a.push)}, of B ${pushWords(b.push)}: ${polarity}.`;
}

/** The curve, for who doesn't see it. */
export function combWords(bench: Bench, figures: BenchFigures): string {
  const { notchesHz, polarity } = figures;
  if (notchesHz === null) {
    const list = SPEAKER_LOOKS_HZ.map((hz) => `${gainText(sumDbAt(bench, hz, figures))} at ${hzText(hz)}`);
    return `A+B against the louder mic alone: ${list.join(', ')}.`;
  }
  const [first, second, third] = notchesHz;
  if (first === undefined) return `A+B against the louder mic alone: ${gainText(figures.peakDb)} everywhere, no notch.`;
  const depth = figures.notchDb <= SILENT_DB ? 'down to nothing' : gainText(figures.notchDb);
  if (second === undefined && polarity === 'inverted')
    return `A+B against the louder mic alone: ${depth} everywhere: they cancel.`;
  const list = [first, second, third].flatMap((hz) => (hz === undefined ? [] : [hzText(hz)]));
  return `A+B against the louder mic alone: peaks ${gainText(figures.peakDb)}, notches ${depth} at ${list.join(', ')}${
    notchesHz.length > list.length ? ' and on' : ''
  }.`;
}
/** where a speaker's curve is told: the lows, where it is late, and where it hears nothing any more */
const SPEAKER_LOOKS_HZ = [40, 80, 120, 160, 300, 2000] as const;
/** a notch that deep is none that anybody could measure */
const SILENT_DB = -50;

/** What the head does at one mic. */
export function headWords(bench: Bench, mic: MicId): string {
  return sideOf(bench, mic) === 'hit' ? `away from ${micName(mic)}` : `towards ${micName(mic)}`;
}
