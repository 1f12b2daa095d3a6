/** The lines and zones of the sum over frequency, ready to draw. Levels are dB re one microphone alone, A and B at equal level. */
import type { Advice, AdviceContext } from '../../advice/advice';
import { afterAdvice } from '../../advice/advise';
import {
  combDb,
  notchesHz,
  POWER_SUM_DB,
  predictedCoherency,
  sumDbFromCoherency,
  thinZonesHz,
} from '../../reading/acoustics';
import { SPECTRUM_HIGH_HZ, SPECTRUM_LOW_HZ, SPECTRUM_POINTS, spectrumHz } from '../../reading/bands';
import { answerOf, type Reading } from '../../reading/reading';

/** Frequencies of the drawn points, Hz. */
export const SUM_HZ: readonly number[] = Array.from({ length: SPECTRUM_POINTS }, (_, i) => spectrumHz(i));
/** Where a picture of the sum has its lines, Hz. */
export const SUM_TICKS_HZ: readonly number[] = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000];
/** The plot's floor: a null is −∞. */
export const SUM_LOW_DB = -18;
/** from this weight on a point counts as carried, and a forecast is drawn */
export const CARRIED_WEIGHT = 0.5;
/** and never in specks shorter than this, points */
const AFTER_RUN = 5;

export interface SumView {
  /** A+B as measured, dB; null where there is no signal */
  measuredDb: (number | null)[];
  /** how far the coherence carries each point: 0 not at all … 1 fully */
  weight: number[];
  /** what the advice would make of it; null without an advice that changes the sum */
  afterDb: (number | null)[] | null;
  /** what the forecast takes as done: "after inverting and the move" */
  afterWhat: string;
  /** what delay and polarity alone would make; null without a delay */
  predictedDb: (number | null)[] | null;
  /** notches between 20 Hz and 20 kHz */
  notchesHz: number[];
  thinZonesHz: [number, number][];
  /** the drum's own low band */
  ownBandHz: [number, number] | null;
}

/** Re one microphone alone, dB, at the plot's floor or above. */
function aloneDb(reGamma: number): number {
  return Math.max(SUM_LOW_DB, sumDbFromCoherency(reGamma) + POWER_SUM_DB);
}

/** coherence up to which the hits carry a point not at all, and from which on fully */
const CARRIED_FROM = 0.1;
const CARRIED_FULLY = 0.5;

/** Weight of a point: 0 … 1. */
export function carried(coherence: number): number {
  if (Number.isNaN(coherence)) return 0;
  return Math.min(1, Math.max(0, (coherence - CARRIED_FROM) / (CARRIED_FULLY - CARRIED_FROM)));
}

/** At f·|τ| = this, a comb's period is six points of the grid. */
const COMB_POINTS_HZ = 1 / (6 * ((SPECTRUM_HIGH_HZ / SPECTRUM_LOW_HZ) ** (1 / (SPECTRUM_POINTS - 1)) - 1));

/** @param turns whether what the meter shows now is turned over */
function afterText(advice: Advice, turns: boolean, invertB: boolean): string {
  const steps = [
    ...(turns ? [invertB ? 'with Invert B here off' : 'after inverting'] : []),
    ...(advice.delayLaterMs ? ['after the delay in the mix'] : []),
    ...(advice.moveCm ? ['after the move'] : []),
  ];
  return steps.join(' and ').replace('after inverting and after the', 'after inverting and the');
}

/** Take out runs of values that are shorter than `least`, in place. */
function dropSpecks(values: (number | null)[], least: number): void {
  for (let i = 0, start = 0; i <= values.length; i++) {
    if (i < values.length && values[i] !== null) continue;
    if (i - start < least) values.fill(null, start, i);
    start = i + 1;
  }
}

export function sumView(reading: Reading, advice: Advice | null, context: AdviceContext): SumView {
  const { re, im, coherence } = reading.sum.spectrum;
  const change = advice === null ? null : afterAdvice(advice, context);
  const measuredDb: (number | null)[] = [];
  const afterDb: (number | null)[] = [];
  const weight: number[] = [];
  for (let i = 0; i < SPECTRUM_POINTS; i++) {
    const x = re[i] as number;
    const y = im[i] as number;
    const has = !Number.isNaN(x) && !Number.isNaN(y);
    measuredDb.push(has ? aloneDb(x) : null);
    weight.push(has ? carried(coherence[i] as number) : 0);
    if (!change) continue;
    const hz = SUM_HZ[i] as number;
    const shown = has && carried(coherence[i] as number) > CARRIED_WEIGHT;
    afterDb.push(shown ? aloneDb(predictedCoherency(x, y, hz, change.shiftSeconds, change.invert)) : null);
  }
  dropSpecks(afterDb, AFTER_RUN);
  const said = answerOf(reading);
  const lock = said.state === 'measured';
  const tau = lock ? said.delaySamples / reading.sampleRate : 0;
  const polarity = said.polarity ?? 'same';
  // above this the grid is too coarse for the comb: what was drawn would be the grid's, not the comb's
  const finestHz = COMB_POINTS_HZ / Math.abs(tau);
  return {
    measuredDb,
    weight,
    afterDb: change ? afterDb : null,
    afterWhat: change && advice ? afterText(advice, change.invert, context.invertB) : '',
    predictedDb: lock
      ? SUM_HZ.map((hz) =>
          hz > finestHz ? null : Math.max(SUM_LOW_DB, combDb(hz, tau, polarity).rePowerSumDb + POWER_SUM_DB),
        )
      : null,
    notchesHz: lock ? notchesHz(tau, polarity, SPECTRUM_HIGH_HZ).filter((hz) => hz >= SPECTRUM_LOW_HZ) : [],
    thinZonesHz: lock
      ? thinZonesHz(tau, polarity, SPECTRUM_HIGH_HZ)
          .filter(([, high]) => high > SPECTRUM_LOW_HZ)
          .map(([low, high]) => [Math.max(low, SPECTRUM_LOW_HZ), high])
      : [],
    ownBandHz:
      reading.sum.fullerLowHz !== null && reading.sum.fullerHighHz !== null
        ? [reading.sum.fullerLowHz, reading.sum.fullerHighHz]
        : null,
  };
}

/** Changes when the sum's picture would: lets a screen redraw only then. */
export function sumKey(reading: Reading, advice: Advice | null): string {
  const { re, im } = reading.sum.spectrum;
  let sum = 0;
  for (let i = 0; i < re.length; i++) {
    const x = (re[i] as number) - 0.37 * (im[i] as number);
    if (!Number.isNaN(x)) sum += x * (i + 1);
  }
  const { delaySamples, polarity } = answerOf(reading);
  const { fullerLowHz, fullerHighHz } = reading.sum;
  const parts = [sum.toPrecision(9), delaySamples, polarity, fullerLowHz, fullerHighHz];
  return `${parts.join('|')}|${advice?.action}|${advice?.moveCm}|${advice?.delayLaterMs}`;
}
