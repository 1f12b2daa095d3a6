import {
  type Action,
  alternativesOf,
  recommendedOf,
  type SumLevels,
  type Timing,
} from '../../../src/advice/plan/alternatives';
import type { Taken } from '../../../src/sheet/document/model';

/** A+B over the power sum by Re γ in the drum's low octave and over all: 10·log10(1 + Re γ), written apart. */
const levels = (low: number | null, all: number | null): SumLevels => {
  const db = (re: number | null): number | null => (re === null ? null : 10 * Math.log10(1 + re));
  return { lowDb: db(low), allDb: db(all), bandsDb: [null, null, null, null] };
};

/** A timing by its Re γ: as it is, and with one inverted. */
export const timing = (
  low: number | null,
  all: number | null,
  { delayMs = null, moveCm = null }: Partial<Pick<Timing, 'delayMs' | 'moveCm'>> = {},
): Timing => ({
  delayMs,
  moveCm,
  asIs: levels(low, all),
  inverted: levels(low === null ? null : -low, all === null ? null : -all),
});

/** What a reading with these timings recommends: the present first. */
export function planned(...timings: Timing[]): Pick<Taken, 'timings' | 'sumByDelay' | 'plan'> {
  const { invertB, delayMs, moveCm } = recommendedOf(alternativesOf(timings));
  return { timings, sumByDelay: null, plan: { invertB, delayMs, moveCm } satisfies Action };
}

/** Nothing is carried, and nothing recommended. */
export const UNPLANNED: Pick<Taken, 'timings' | 'sumByDelay' | 'plan'> = { timings: [], sumByDelay: null, plan: null };

/** A sure reading of a snare's top and bottom as a sheet keeps it. */
export const TAKEN: Taken = {
  takenAt: '2026-01-02T03:04:05Z',
  run: 'run 1',
  initials: '',
  temperatureC: 20,
  sampleRate: 48000,
  sure: true,
  reason: '',
  polarity: 'inverted',
  delayMs: 0.1,
  uncertaintyMs: 0.02,
  spreadMs: 0.004,
  hits: 9,
  hitsUsed: 8,
  agreement: 0.9,
  fuller: 'inverted',
  fullerDb: 7.8,
  fullerLowHz: 177,
  fullerHighHz: 354,
  lowCoherency: -0.7,
  octaveCoherency: [null, null, -0.7, 0.2],
  sumDb: null,
  // inverted: +7.5 dB in the drum's low octave, +4.8 dB over all
  ...planned(timing(-0.7, -0.5)),
  aInverted: false,
  bInverted: false,
};

/** At 20 °C sound goes 34.32 cm in a ms. */
const CM_PER_MS = 34.32;

/** The same with B farther from the drum. */
export const farther = (taken: Taken, cm: number): Taken => ({
  ...taken,
  delayMs: (taken.delayMs ?? 0) + cm / CM_PER_MS,
});

/** Re γ at a delay, ms. */
export type Gamma = (delayMs: number) => number;

/** A reading whose arrival lies there, with these curves round it, at 48 kHz: the present, these delays, and any other near. */
export function curved(arrivalMs: number, low: Gamma, all: Gamma, delaysMs: readonly number[] = []): Taken {
  const fromMs = (Math.round(arrivalMs * 48) - 60) / 48;
  const curve = (of: Gamma): number[] =>
    Array.from({ length: 121 }, (_, i) => Math.round(1000 * of(fromMs + i / 48)) / 1000 + 0);
  const timings = [null, ...delaysMs].map((ms) => timing(low(ms ?? 0), all(ms ?? 0), { delayMs: ms }));
  return {
    ...TAKEN,
    delayMs: arrivalMs,
    ...planned(...timings),
    sumByDelay: { fromMs, stepMs: 1 / 48, low: curve(low), all: curve(all) },
  };
}
