/** Delay, path, accuracy, spread and move: the sums behind the arrival. */
import { pathCm, speedOfSound } from '../../reading/acoustics';
import type { Method } from '../../reading/codes';
import { answerOf, type Reading, type Said } from '../../reading/reading';
import { hitsText } from '../../text/count';
import { cmText, spanText } from '../../text/length';
import { fixed, NO_VALUE, signed } from '../../text/number';
import type { Sum as AnySum, SumInput } from '../../text/sum';
import { type Gap, gapOf, knownCm, moveOf } from '../plan/gap';
import { type PairKind, type PairKindId, pairKind } from '../plan/pairKinds';
import type { PlanContext } from '../plan/planTypes';
import type { SumId } from './sumIds';

type Sum = AnySum & { id: SumId };

/** 90 % of a normal distribution lie within so many deviations; a deviation is so many median deviations (as dsp/delay/uncertainty) */
export const NINETY = 1.645;
export const DEVIATION = 1.4826;
/** what stays open of what is likeliest, s (as dsp/tuning/likelyTuning) */
export const PLACE_SECONDS = 0.000058;

const FROM: Readonly<Record<Method, string>> = {
  'first-arrival': 'first pushes',
  waveform: 'whole attacks',
  'low-band': 'first pushes in the lows',
  likeliest: 'hits that show it',
};

const NOT_READ = { worked: null, result: null } as const;

/** An arrival, wherever it is kept. */
export interface Arrival {
  said: Pick<
    Said,
    'state' | 'polarity' | 'method' | 'hitsUsed' | 'delaySamples' | 'spreadSamples' | 'uncertaintySamples'
  >;
  sampleRate: number;
  temperatureC: number;
  from: ArrivalFrom;
}

/** Where an arrival is from, as far as that is told otherwise than on the meter. */
export interface ArrivalFrom {
  /** what its samples are; null: the middle of the hits used */
  delay: string | null;
  note: string;
  /** where each hit's own delay can be seen */
  each: string;
  /** of the accuracy only the whole is known */
  wholeAccuracy: boolean;
}

const METER: ArrivalFrom = {
  delay: null,
  note: 'Positive: B hears the drum later. “Why?” shows every hit in it.',
  each: 'under “Why?”',
  wholeAccuracy: false,
};

const spaced = (value: number, decimals: number, unit: string): string => `${fixed(value, decimals)} ${unit}`;
const known = (value: number | null, show: (value: number) => string): string =>
  value === null ? NO_VALUE : show(value);

function delaySum({ said, sampleRate, from: { delay, note } }: Arrival): Sum {
  const samples = said.delaySamples;
  const ms = samples === null ? null : (samples / sampleRate) * 1000;
  const from = said.method === null ? 'hits used' : `${FROM[said.method]} of ${hitsText(said.hitsUsed)}`;
  return {
    id: 'delay',
    name: 'Delay',
    formula: 't = n ÷ f',
    inputs: [
      {
        symbol: 'n',
        is: `arrival at B less arrival at A, ${delay ?? `middle of the ${from}`}`,
        value: known(samples, (n) => `${signed(n, 2)} samples`),
      },
      { symbol: 'f', is: 'sample rate', value: `${sampleRate} Hz` },
    ],
    ...(samples === null || ms === null
      ? NOT_READ
      : { worked: `${signed(samples, 2)} ÷ ${sampleRate} Hz = ${signed(ms, 3)} ms`, result: ms }),
    note,
    source: 'Arithmetic.',
  };
}

const soundInput = (temperatureC: number): SumInput => ({
  symbol: 'c',
  is: `speed of sound at ${fixed(temperatureC, 1)} °C: 331.3 · √(1 + T ÷ 273.15)`,
  value: spaced(speedOfSound(temperatureC), 1, 'm/s'),
});
const SOUND_SOURCE =
  'Speed of sound: dry air as an ideal gas, within 0.8 m/s of O. Cramer, J. Acoust. Soc. Am. 93 (1993), 0–30 °C.';

function pathSum({ said, sampleRate, temperatureC }: Arrival): Sum {
  const samples = said.delaySamples;
  const seconds = samples === null ? null : samples / sampleRate;
  const cm = seconds === null ? null : pathCm(seconds, temperatureC);
  return {
    id: 'path',
    name: 'Path',
    formula: 's = t · c',
    inputs: [
      { symbol: 't', is: 'delay', value: known(seconds, (s) => `${signed(s * 1000, 3)} ms`) },
      soundInput(temperatureC),
    ],
    ...(cm === null || seconds === null
      ? NOT_READ
      : {
          worked: `${signed(seconds * 1000, 3)} ms · ${spaced(speedOfSound(temperatureC), 1, 'm/s')} = ${signed(cm, 2)} cm`,
          result: cm,
        }),
    note: 'Shown no finer than it is known.',
    source: SOUND_SOURCE,
  };
}

function spreadSum({ said, sampleRate, temperatureC, from }: Arrival): Sum {
  const spread = said.spreadSamples;
  const mm = spread === null ? null : pathCm(spread / sampleRate, temperatureC) * 10;
  return {
    id: 'spread',
    name: 'Hit-to-hit spread',
    formula: 'd = m ÷ f · c,  m = median of |nᵢ − n|',
    inputs: [
      { symbol: 'nᵢ', is: `delays of ${hitsText(said.hitsUsed)}, one by one`, value: from.each },
      { symbol: 'n', is: 'their middle', value: known(said.delaySamples, (n) => `${signed(n, 2)} samples`) },
      { symbol: 'm', is: 'median of the differences', value: known(spread, (n) => spaced(n, 2, 'samples')) },
      { symbol: 'f', is: 'sample rate', value: `${sampleRate} Hz` },
      soundInput(temperatureC),
    ],
    ...(mm === null || spread === null
      ? NOT_READ
      : {
          worked: `${fixed(spread, 2)} ÷ ${sampleRate} Hz · ${spaced(speedOfSound(temperatureC), 1, 'm/s')} = ${fixed(mm, 1)} mm`,
          result: mm,
        }),
    note: 'Half of the hits used are nearer to the middle than this. It says how well hits repeat, not how true they are.',
    source: 'Median absolute deviation, a textbook measure of scatter.',
  };
}

interface Accuracy {
  formula: string;
  parts: SumInput[];
  /** its two parts, 90 %, samples */
  two: [number, number] | null;
}

/** What is likeliest: where it lies in the hits that show it. */
function likelyAccuracy(all: number | null, sampleRate: number, plusMinus: (n: number) => string): Accuracy {
  const place = PLACE_SECONDS * sampleRate;
  const width = all === null ? null : Math.sqrt(Math.max(0, all ** 2 - place ** 2));
  return {
    formula: 'u = √(p² + w²)',
    parts: [
      { symbol: 'p', is: 'what stays open however well the hits agree', value: plusMinus(place) },
      { symbol: 'w', is: 'how far apart they lie, the hits that show it', value: known(width, plusMinus) },
    ],
    two: width === null ? null : [place, width],
  };
}

function agreedAccuracy({ said }: Arrival, plusMinus: (n: number) => string): Accuracy {
  const { uncertaintySamples: all, spreadSamples: spread, hitsUsed } = said;
  const byHits = spread === null ? null : (NINETY * DEVIATION * spread) / Math.sqrt(Math.max(1, hitsUsed));
  const rest = all === null || byHits === null ? null : Math.sqrt(Math.max(0, all ** 2 - byHits ** 2));
  return {
    formula: 'u = √(h² + r²),  h = 1.645 · 1.4826 · d ÷ √N',
    parts: [
      { symbol: 'd', is: 'hit-to-hit spread', value: known(spread, plusMinus) },
      { symbol: 'N', is: 'hits used', value: String(hitsUsed) },
      { symbol: 'h', is: 'what so few hits leave open', value: known(byHits, plusMinus) },
      {
        symbol: 'r',
        is: 'the rest: first push against whole attack, how unlike the two mics rise, where the drum is hit, noise',
        value: known(rest, plusMinus),
      },
    ],
    two: byHits === null || rest === null ? null : [byHits, rest],
  };
}

function accuracySum(arrival: Arrival): Sum {
  const { said, sampleRate, temperatureC, from } = arrival;
  const all = said.uncertaintySamples;
  if (from.wholeAccuracy) return wholeAccuracySum(arrival);
  const cm = (n: number): number => pathCm(n / sampleRate, temperatureC);
  const plusMinus = (n: number): string => `±${fixed(cm(n), 2)} cm`;
  const { formula, parts, two } =
    said.method === 'likeliest' ? likelyAccuracy(all, sampleRate, plusMinus) : agreedAccuracy(arrival, plusMinus);
  return {
    id: 'accuracy',
    name: 'Accurate to',
    formula,
    inputs: parts,
    ...(all === null || two === null
      ? NOT_READ
      : { worked: `√(${two.map((n) => `${fixed(cm(n), 2)}²`).join(' + ')}) = ${plusMinus(all)}`, result: cm(all) }),
    note: 'The truth lies within it nine times in ten.',
    source:
      '1.645: 90 % of a normal distribution. 1.4826: its deviation from the median deviation. What stays open, and the rest: fitted to simulated kits of known geometry.',
  };
}

function wholeAccuracySum({ said, sampleRate, temperatureC }: Arrival): Sum {
  const ms = said.uncertaintySamples === null ? null : (said.uncertaintySamples / sampleRate) * 1000;
  const cm = ms === null ? null : pathCm(ms / 1000, temperatureC);
  return {
    id: 'accuracy',
    name: 'Accurate to',
    formula: 'u = a · c',
    inputs: [
      {
        symbol: 'a',
        is: 'accuracy of the delay, 90 %, as it was read',
        value: known(ms, (a) => `±${spaced(a, 3, 'ms')}`),
      },
      soundInput(temperatureC),
    ],
    ...(ms === null || cm === null
      ? NOT_READ
      : {
          worked: `±${spaced(ms, 3, 'ms')} · ${spaced(speedOfSound(temperatureC), 1, 'm/s')} = ±${fixed(cm, 2)} cm`,
          result: cm,
        }),
    note: 'The truth lies within it nine times in ten. Its parts are told on the meter, while the pair is read.',
    source: SOUND_SOURCE,
  };
}

/** @param movesCm the move that is told of an arrival; null: none is */
function moveSum(arrival: Arrival, kindId: PairKindId, movesCm: (kind: PairKind, gap: Gap) => number | null): Sum {
  const { said, sampleRate, temperatureC } = arrival;
  const gap = gapOf({ ...said, polarity: said.polarity ?? 'same' }, sampleRate, temperatureC);
  const kind = pairKind(kindId);
  const cm = gap === null || said.state !== 'measured' ? null : movesCm(kind, gap);
  const within = gap && knownCm(gap);
  return {
    id: 'move',
    name: 'Move that lines the arrivals up',
    formula: 'm = s, rounded as the path is: to 0.5 cm, from 10 cm on or known no better to 1 cm',
    inputs: [
      { symbol: 's', is: 'path', value: known(gap?.pathCm ?? null, (s) => `${signed(s, 2)} cm`) },
      { symbol: '', is: 'known to', value: known(within, (s) => `±${spanText(s)}`) },
      { symbol: '', is: 'near enough for such a pair', value: `${cmText(kind.toleranceCm)}` },
    ],
    ...(gap === null || cm === null
      ? NOT_READ
      : { worked: `${signed(gap.pathCm, 2)} cm → ${signed(cm, 1)} cm, ${cm > 0 ? 'B closer' : 'B back'}`, result: cm }),
    note: kind.movable
      ? 'No move is said that is smaller than twice the spread, or than what is near enough. Sound goes straight from the drum to the mic here; a mic moved aside does less.'
      : 'Such a pair isn’t lined up by a move.',
    source: 'Common practice, no source: what is near enough.',
  };
}

/** Of a move that was told before. */
export const toldMoveSum = (arrival: Arrival, kind: PairKindId, moveCm: number): Sum =>
  moveSum(arrival, kind, () => moveCm);

/** Of the shown drum. */
export function arrivalSums(reading: Reading, context: PlanContext, from = METER): Sum[] {
  const { sampleRate } = reading;
  const arrival = { said: answerOf(reading), sampleRate, temperatureC: context.temperatureC, from };
  return [...arrivalSumsOf(arrival), moveSum(arrival, context.kind, moveOf)];
}

/** Delay, path, accuracy and spread of an arrival that was read before. */
export const arrivalSumsOf = (arrival: Arrival): Sum[] => [
  delaySum(arrival),
  pathSum(arrival),
  accuracySum(arrival),
  spreadSum(arrival),
];
