/** Delay, path, accuracy, spread and move: the sums behind the arrival. */
import { pathCm, speedOfSound } from '../../reading/acoustics';
import type { Method } from '../../reading/codes';
import { answerOf, type Reading, type Said } from '../../reading/reading';
import { hitsText } from '../../text/count';
import { cmText, spanText } from '../../text/length';
import { fixed, NO_VALUE, signed } from '../../text/number';
import type { Sum as AnySum, SumInput } from '../../text/sum';
import { gapOf, knownCm, moveOf } from '../plan/gap';
import { pairKind } from '../plan/pairKinds';
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

interface Arrival {
  said: Said;
  /** samples; null: nothing holds */
  samples: number | null;
  sampleRate: number;
  temperatureC: number;
}

const spaced = (value: number, decimals: number, unit: string): string => `${fixed(value, decimals)} ${unit}`;
const known = (value: number | null, show: (value: number) => string): string =>
  value === null ? NO_VALUE : show(value);

function delaySum({ said, samples, sampleRate }: Arrival): Sum {
  const ms = samples === null ? null : (samples / sampleRate) * 1000;
  const from = said.method === null ? 'hits used' : `${FROM[said.method]} of ${hitsText(said.hitsUsed)}`;
  return {
    id: 'delay',
    name: 'Delay',
    formula: 't = n ÷ f',
    inputs: [
      {
        symbol: 'n',
        is: `arrival at B less arrival at A, middle of the ${from}`,
        value: known(samples, (n) => `${signed(n, 2)} samples`),
      },
      { symbol: 'f', is: 'sample rate', value: `${sampleRate} Hz` },
    ],
    ...(samples === null || ms === null
      ? NOT_READ
      : { worked: `${signed(samples, 2)} ÷ ${sampleRate} s = ${signed(ms, 3)} ms`, result: ms }),
    note: 'Positive: B hears the drum later. “Why?” shows every hit in it.',
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

function pathSum({ samples, sampleRate, temperatureC }: Arrival): Sum {
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

function spreadSum({ said, sampleRate, temperatureC }: Arrival): Sum {
  const spread = said.spreadSamples;
  const mm = spread === null ? null : pathCm(spread / sampleRate, temperatureC) * 10;
  return {
    id: 'spread',
    name: 'Hit-to-hit spread',
    formula: 'd = median of |nᵢ − n| ÷ f · c',
    inputs: [
      { symbol: 'nᵢ', is: `delays of ${hitsText(said.hitsUsed)}, one by one`, value: 'under “Why?”' },
      { symbol: 'n', is: 'their middle', value: known(said.delaySamples, (n) => `${signed(n, 2)} samples`) },
      { symbol: '', is: 'median of the differences', value: known(spread, (n) => spaced(n, 2, 'samples')) },
      soundInput(temperatureC),
    ],
    ...(mm === null || spread === null
      ? NOT_READ
      : {
          worked: `${fixed(spread, 2)} ÷ ${sampleRate} s · ${spaced(speedOfSound(temperatureC), 1, 'm/s')} = ${fixed(mm, 1)} mm`,
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
  const { said, sampleRate, temperatureC } = arrival;
  const all = said.uncertaintySamples;
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

function moveSum(arrival: Arrival, context: PlanContext): Sum {
  const { said, sampleRate, temperatureC } = arrival;
  const gap = gapOf({ ...said, polarity: said.polarity ?? 'same' }, sampleRate, temperatureC);
  const kind = pairKind(context.kind);
  const cm = gap === null || said.state !== 'measured' ? null : moveOf(kind, gap);
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

/** Of the shown drum. */
export function arrivalSums(reading: Reading, context: PlanContext): Sum[] {
  const said = answerOf(reading);
  const { sampleRate } = reading;
  const arrival: Arrival = { said, samples: said.delaySamples, sampleRate, temperatureC: context.temperatureC };
  return [delaySum(arrival), pathSum(arrival), accuracySum(arrival), spreadSum(arrival), moveSum(arrival, context)];
}
