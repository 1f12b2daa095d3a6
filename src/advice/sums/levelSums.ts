/** Gains, the sum over frequency, notches, correlation and levels: the sums behind what A+B comes to. */
import { notchesHz, POWER_SUM_DB, sumDbFromCoherency } from '../../reading/acoustics';
import { BAND_COUNT, BANDS, SPECTRUM_POINTS, SUM_BAND, spectrumHz } from '../../reading/bands';
import { answerOf, type Reading } from '../../reading/reading';
import { bandText, hzText } from '../../text/frequency';
import { fixed, NO_VALUE, signed } from '../../text/number';
import type { Sum as AnySum } from '../../text/sum';
import type { Advice } from '../advice';
import type { Action } from '../plan/alternatives';
import type { PlanContext } from '../plan/planTypes';
import { NOTHING_TRIED } from '../tryOut/tried';
import { reAfter, shiftSecondsOf } from '../tryOut/tryOut';
import { ADDING, gainSum, type Level, levelOf } from './gainSum';
import type { SumId } from './sumIds';

type Sum = AnySum & { id: SumId };

const NOT_READ = { worked: null, result: null } as const;
const TOP = BANDS[BAND_COUNT - 1] as (typeof BANDS)[number];
/** places in what a reading says of the present */
const [LOW, ALL, UPPER] = [0, 1, 1 + BAND_COUNT];

const dbText = (db: number): string => `${signed(db, 1)} dB`;
const known = (value: number | null | undefined, show: (value: number) => string): string =>
  value === null || value === undefined || Number.isNaN(value) ? NO_VALUE : show(value);

/** the frequency for which the sum is worked out: the strongest loss that is carried */
function thinnest({ re }: Reading['sum']['spectrum']): number {
  let at = -1;
  for (let i = 0; i < SPECTRUM_POINTS; i++)
    if (!Number.isNaN(re[i]) && (at < 0 || (re[i] as number) < (re[at] as number))) at = i;
  return at;
}

function overFrequencySum({ sum }: Reading): Sum {
  const at = thinnest(sum.spectrum);
  const re = at < 0 ? null : (sum.spectrum.re[at] as number);
  const db = re === null ? null : sumDbFromCoherency(re) + POWER_SUM_DB;
  const hz = at < 0 ? '' : hzText(spectrumHz(at));
  return {
    id: 'over-frequency',
    name: 'The sum over frequency',
    formula: 'L(f) = 10 · lg(2 · (1 + Re γ(f)))',
    inputs: [
      {
        symbol: 'γ(f)',
        is:
          at < 0
            ? 'how alike A and B are at each frequency'
            : `how alike A and B are at ${hz}, where the line is lowest`,
        value: known(re, (x) => signed(x, 3)),
      },
    ],
    ...(re === null || db === null
      ? NOT_READ
      : {
          worked: `10 · lg(2 · (1 ${re < 0 ? '−' : '+'} ${fixed(Math.abs(re), 3)})) = ${dbText(db)} at ${hz}`,
          result: db,
        }),
    note: 'dB re one mic alone, A and B at equal level: +6 dB where they are one, +3 dB where they are unrelated. γ is the hits’ cross-spectrum over the root of both powers, a twelfth of an octave wide.',
    source: ADDING,
  };
}

function notchSum(reading: Reading): Sum {
  const { delaySamples, polarity } = answerOf(reading);
  const seconds = delaySamples === null ? null : Math.abs(delaySamples) / reading.sampleRate;
  const inverted = polarity === 'inverted';
  const notches = seconds === null || polarity === null ? [] : notchesHz(seconds, polarity);
  const hz = notches.find((one) => one > 0) ?? null;
  return {
    id: 'notch',
    name: 'Notches of the comb',
    formula: inverted ? 'f = k ÷ |t|,  k = 0, 1, 2 …' : 'f = (2k + 1) ÷ (2 · |t|),  k = 0, 1, 2 …',
    inputs: [
      { symbol: 't', is: 'delay', value: known(seconds, (s) => `${fixed(s * 1000, 3)} ms`) },
      { symbol: '', is: 'polarity', value: polarity ?? NO_VALUE },
    ],
    ...(hz === null || seconds === null
      ? NOT_READ
      : {
          worked: `${inverted ? '0 Hz, and ' : ''}1 ÷ (${inverted ? '' : '2 · '}${fixed(seconds * 1000, 3)} ms) = ${hzText(hz)}`,
          result: hz,
        }),
    note: inverted
      ? 'Inverted, the notches lie where the peaks were: at 0 Hz, at that, and at 2, 3, 4 … times that.'
      : 'The next ones at 3, 5, 7 … times that.',
    source: 'F. A. Everest, K. C. Pohlmann, Master Handbook of Acoustics, ch. 10.',
  };
}

function correlationSum({ sum }: Reading): Sum {
  const r = sum.correlation;
  return {
    id: 'correlation',
    name: 'Correlation',
    formula: 'r = Σ a·b ÷ √(Σ a² · Σ b²)',
    inputs: [
      { symbol: 'a, b', is: `samples of A and B, ${bandText(SUM_BAND.lowHz, SUM_BAND.highHz)}`, value: 'as they come' },
      { symbol: 'r', is: 'over the hits used', value: known(r, (x) => signed(x, 2)) },
    ],
    ...(r === null ? NOT_READ : { worked: `r = ${signed(r, 2)}`, result: r }),
    note: 'The trace shows the same as it runs; in each band so long a time is taken that unrelated inputs stay within ±0.1 two times in three.',
    source:
      'Between −1 and +1 by Cauchy and Schwarz. No standard sets the time that a correlation meter takes: this one is ours.',
  };
}

function levelSums({ inputs }: Reading): Sum[] {
  const level = (id: 'peak' | 'rms', dbfs: number | null): Sum => {
    const peak = id === 'peak';
    // the reading keeps the level alone: what it was worked out from, back from it
    const from = dbfs === null ? null : peak ? 10 ** (dbfs / 20) : 10 ** (dbfs / 10) / 2;
    const figure = known(from, (x) => x.toPrecision(4).replace(/e-(\d+)/, ' · 10^−$1'));
    return {
      id,
      name: peak ? 'Peak of A' : 'RMS of A',
      formula: peak ? 'L = 20 · lg(p)' : 'L = 10 · lg(2 · q)',
      inputs: [
        peak
          ? { symbol: 'p', is: 'largest |sample| of A in the last 400 ms, full scale = 1', value: figure }
          : { symbol: 'q', is: 'mean square of A’s samples in the last 400 ms, full scale = 1', value: figure },
      ],
      ...(dbfs === null
        ? NOT_READ
        : {
            worked: `${peak ? `20 · lg(${figure})` : `10 · lg(2 · ${figure})`} = ${signed(dbfs, 1)} dBFS`,
            result: dbfs,
          }),
      note: 'B’s the same way. The input isn’t calibrated: this is not dB SPL.',
      source: 'AES17: a full-scale sine of 997 Hz is 0 dBFS.',
    };
  };
  return [level('peak', inputs.a.peakDbfs), level('rms', inputs.a.rmsDbfs)];
}

/** @param advice what is recommended, whose gains are worked out; null: nothing */
export function levelSumsOf(reading: Reading, advice: Pick<Advice, 'plan'> | null, context: PlanContext): Sum[] {
  const one = advice?.plan[0] ?? null;
  // gains count from the inputs as they are
  const alike = (n: number, action: Action | null): number | null => {
    if (action === null) return null;
    const shiftSamples = shiftSecondsOf(action, context.temperatureC) * reading.sampleRate;
    const re = reAfter(reading.sum, n, shiftSamples);
    return re === null ? null : (action.invertB === context.invertB ? 1 : -1) * re;
  };
  const pair = (n: number): [now: Level | null, done: Level | null] => [
    levelOf(alike(n, NOTHING_TRIED)),
    levelOf(alike(n, one)),
  ];
  const { fullerLowHz, fullerHighHz } = reading.sum;
  const octave = fullerLowHz !== null && fullerHighHz !== null ? ` (${bandText(fullerLowHz, fullerHighHz)})` : '';
  return [
    gainSum('low-octave', `Gain in the low octave${octave}`, 'there', ...pair(LOW)),
    gainSum('overall', 'Gain overall', `from ${bandText(SUM_BAND.lowHz, SUM_BAND.highHz)}`, ...pair(ALL)),
    gainSum('upper-band', `Gain at ${bandText(TOP.lowHz, TOP.highHz)}`, 'there', ...pair(UPPER)),
    overFrequencySum(reading),
    notchSum(reading),
    correlationSum(reading),
    ...levelSums(reading),
  ];
}
