/** The lines of the sum over frequency, ready to draw. Levels are dB re one microphone alone, A and B at equal level. */
import type { Advice, AdviceContext } from '../../advice/advice';
import { afterAdvice } from '../../advice/advise';
import { predictedCoherency } from '../../reading/acoustics';
import { BANDS, SPECTRUM_POINTS, spectrumHz } from '../../reading/bands';
import { answerOf, type Reading, type SumSpectrum } from '../../reading/reading';
import { aloneDb, CARRIED_WEIGHT, type CombView, carried, combView } from './combView';

/** Frequencies of the drawn points, Hz. */
export const SUM_HZ: readonly number[] = Array.from({ length: SPECTRUM_POINTS }, (_, i) => spectrumHz(i));
/** Where a picture of the sum has its lines, Hz. */
export const SUM_TICKS_HZ: readonly number[] = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000];
/** nothing is drawn in specks shorter than this, points */
const LEAST_RUN = 5;
/** a loss is told from here on, dB, where it is so wide, points */
const LOSS_DB = 3;
const LOSS_POINTS = 4;

/** hits of the drum from which the sum is worked out (as the bands in `measure --json`) */
const LEAST_HITS = 3;

/** What the second line is. */
export type OtherLine =
  /** the sum after what is advised */
  | 'after'
  /** all that is advised is what the meter does to B here: the sum without that */
  | 'without'
  /** what is tried by hand */
  | 'tried';

export interface BandGain {
  lowHz: number;
  highHz: number;
  db: number;
}

export interface SumView {
  /** A+B as it is shown and heard now; null where the hits don't carry it */
  nowDb: (number | null)[];
  /** too few hits of the drum for any line */
  tooFew: boolean;
  /** the second line, known where the first is; null: there is nothing to compare with */
  otherDb: (number | null)[] | null;
  other: OtherLine;
  /** what the second line takes as done: "after inverting and the move" */
  otherWhat: string;
  /** the drum's own low octave, Hz */
  ownBandHz: [number, number] | null;
  /** what the plan gains in it from the poorer line to the better, dB; 0: nothing is to be done; null: not known */
  gainDb: number | null;
  /** the low octave gains nothing: the band that gains most, by how much; null: it does, or none gains a decibel */
  elsewhere: BandGain | null;
  /** the widest place where the plan makes the sum thinner by LOSS_DB and more, Hz; null: none */
  lossHz: [number, number] | null;
  /** null without a delay */
  comb: CombView | null;
}

/** @param turns whether what the meter shows now is turned over */
function afterText(advice: Advice, turns: boolean, invertB: boolean): string {
  const steps = [
    ...(turns ? [invertB ? 'with “Invert B here” off' : 'after inverting'] : []),
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

/** gains are told to half a dB: less than this is none */
const NO_GAIN_DB = 0.25;
const ELSEWHERE_DB = 1;

function elsewhereOf(gainDb: number | null, bandsDb: readonly (number | null)[]): BandGain | null {
  if (gainDb === null || Math.abs(gainDb) >= NO_GAIN_DB) return null;
  let best: BandGain | null = null;
  for (const [i, { lowHz, highHz }] of BANDS.entries()) {
    const db = bandsDb[i] ?? 0;
    if (db >= ELSEWHERE_DB && (best === null || db > best.db)) best = { lowHz, highHz, db };
  }
  return best;
}

interface Other {
  other: OtherLine;
  otherWhat: string;
  change: { shiftSeconds: number; invert: boolean } | null;
  gainDb: number | null;
  elsewhere: BandGain | null;
}

/** What is drawn beside the present, and what the one gains over the other in the drum's low octave. */
function otherOf(advice: Advice | null, context: AdviceContext): Other {
  const todo = advice?.plan[0];
  if (advice === null || todo === undefined) {
    return { other: 'after', otherWhat: '', change: null, gainDb: null, elsewhere: null };
  }
  const change = afterAdvice(advice, context);
  if (change === null && context.invertB) {
    // nothing is left to do, and B is turned over here: what that gains
    const turned = { shiftSeconds: 0, invert: true };
    return {
      other: 'without',
      otherWhat: 'without “Invert B here”',
      change: turned,
      gainDb: todo.lowDb,
      elsewhere: elsewhereOf(todo.lowDb, todo.bandsDb),
    };
  }
  // gains count from the inputs as they are: what is shown with B turned over here begins with what that gains
  const here = advice.plan.find((one) => one.invertB && one.delayMs === null && one.moveCm === null);
  const from = context.invertB ? (here?.lowDb ?? null) : 0;
  const gainDb = todo.lowDb === null || from === null ? null : todo.lowDb - from;
  const bandsDb = todo.bandsDb.map((db, i) => {
    const begun = context.invertB ? (here?.bandsDb[i] ?? null) : 0;
    return db === null || begun === null ? null : db - begun;
  });
  return {
    other: 'after',
    otherWhat: change ? afterText(advice, change.invert, context.invertB) : '',
    change,
    gainDb,
    elsewhere: elsewhereOf(gainDb, bandsDb),
  };
}

/** The widest run of points where `to` lies LOSS_DB and more below `from`, Hz. */
export function lossOf(from: readonly (number | null)[], to: readonly (number | null)[]): [number, number] | null {
  let best: [number, number] | null = null;
  let points = LOSS_POINTS - 1;
  for (let i = 0, start = 0; i <= SPECTRUM_POINTS; i++) {
    const [x, y] = [from[i] ?? null, to[i] ?? null];
    if (x !== null && y !== null && y < x - LOSS_DB) continue;
    if (i - start > points) {
      points = i - start;
      best = [SUM_HZ[start] as number, SUM_HZ[i - 1] as number];
    }
    start = i + 1;
  }
  return best;
}

/** A+B where the hits carry it, dB re one microphone alone. */
export function nowLine({ re, im, coherence }: SumSpectrum): (number | null)[] {
  const nowDb = SUM_HZ.map((_, i) => {
    const known = !Number.isNaN(re[i]) && !Number.isNaN(im[i]) && carried(coherence[i] as number) > CARRIED_WEIGHT;
    return known ? aloneDb(re[i] as number) : null;
  });
  dropSpecks(nowDb, LEAST_RUN);
  return nowDb;
}

/** @param combFitted whether the comb did fit in the view before */
export function sumView(reading: Reading, advice: Advice | null, context: AdviceContext, combFitted = false): SumView {
  const { spectrum, fullerLowHz, fullerHighHz } = reading.sum;
  const { re, im } = spectrum;
  const { other, otherWhat, change, gainDb, elsewhere } = otherOf(advice, context);
  const nowDb = nowLine(spectrum);
  const otherDb =
    change &&
    SUM_HZ.map((hz, i) =>
      nowDb[i] === null
        ? null
        : aloneDb(predictedCoherency(re[i] as number, im[i] as number, hz, change.shiftSeconds, change.invert)),
    );
  const said = answerOf(reading);
  const [poorer, better] = other === 'after' ? [nowDb, otherDb] : [otherDb, nowDb];
  return {
    nowDb,
    tooFew: said.hits < LEAST_HITS,
    otherDb,
    other,
    otherWhat,
    ownBandHz: fullerLowHz !== null && fullerHighHz !== null ? [fullerLowHz, fullerHighHz] : null,
    gainDb,
    elsewhere,
    lossHz: poorer && better && lossOf(poorer, better),
    comb:
      said.state === 'measured'
        ? combView(spectrum, said.delaySamples / reading.sampleRate, said.polarity, combFitted)
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
  const { delaySamples, polarity, hits } = answerOf(reading);
  const { fullerLowHz, fullerHighHz } = reading.sum;
  const parts = [sum.toPrecision(9), delaySamples, polarity, fullerLowHz, fullerHighHz, hits < LEAST_HITS];
  const [todo] = advice?.plan ?? [];
  return `${parts.join('|')}|${advice?.action}|${advice?.moveCm}|${advice?.delayLaterMs}|${todo?.lowDb?.toFixed(1)}`;
}
