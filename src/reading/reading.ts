/**
 * What the engine says: one Reading. It is the inputs' state, an answer for each drum heard, and which drum is shown; what
 * is shown is looked up (`answerOf`), not copied.
 *
 * Conventions, everywhere in the program:
 * - delay = arrival at B minus arrival at A; positive: B hears the drum later
 * - polarity is of B's first push against A's: `same` or `inverted`
 * - `null` means "no value" (silence, too little evidence), never 0 or NaN
 * - levels are dBFS with a full-scale sine's RMS at 0 (AES17): plain RMS + 3.01 dB; peaks are 20·log10|sample|
 */
import type { BandName } from './bands';
import type { FAULT_STATES, Fuller, HitFate, Method, ReadingReason } from './codes';

export type Polarity = 'same' | 'inverted';

export interface ChannelLevel {
  /** largest |sample| of the last 400 ms, dBFS; null when digital silence */
  peakDbfs: number | null;
  /** RMS of the last 400 ms, dBFS re a full-scale sine; null when digital silence */
  rmsDbfs: number | null;
  /** runs of three or more successive full-scale samples since the start */
  clips: number;
  /** mean of the last second, as a fraction of full scale */
  dc: number;
  /** no signal worth the name for the last 2 s */
  silent: boolean;
}

/** What is wrong with the inputs: no answer of any drum counts while it is so. */
export type InputFault =
  | { state: (typeof FAULT_STATES)[number]; reason: ReadingReason }
  /** both carry sound, and nothing in common */
  | { state: 'unclear'; reason: 'no-common-signal' };

/**
 * What the inputs carry in octave bands (src/reading/bands: `inputBandHz`), over the newest complete window of 0.26 s; nothing
 * is taken out of it. All zero before the first.
 */
export interface InputNoise {
  /** windows complete so far: another number is another window; begins again with a new engine */
  windows: number;
  /** longest stretch in the window that was exactly zero in both, s: no converter delivers that */
  zeroSeconds: number;
  /** mean squares of A and of B, and the mean product of the two; full scale ±1 */
  a: number[];
  b: number[];
  product: number[];
  /** mean squares of the window's quietest 32 ms, each band by itself */
  floorA: number[];
  floorB: number[];
}

/** The two inputs, whatever is struck. */
export interface InputsReading {
  a: ChannelLevel;
  b: ChannelLevel;
  /** both channels exactly zero right now: no data */
  gap: boolean;
  /** every sample that isn't 0 has been equal in A and B for at least 0.2 s of such samples */
  bitIdentical: boolean;
  /** input offset taken out before anything else, samples: delay of B's path against A's; 0: none */
  offsetSamples: number;
  noise: InputNoise;
  fault: InputFault | null;
}

/** Hits behind an answer. */
export interface HitCounts {
  /** hits of the drum since start or restart */
  hits: number;
  /** hits in the running */
  hitsPooled: number;
  /** hits behind the answer */
  hitsUsed: number;
  /** share of the pooled hits that agree, 0–1 */
  agreement: number | null;
}

/** Polarity and delay hold. */
export interface MeasuredAnswer extends HitCounts {
  state: 'measured';
  reason: ReadingReason;
  polarity: Polarity;
  delaySamples: number;
  /** repeats within: half-width within which half of the used hits lie, samples */
  spreadSamples: number | null;
  /** 90 % uncertainty of the delay, pick bias included; null until known */
  uncertaintySamples: number | null;
  /** which witness the delay comes from */
  method: Method | null;
}

interface NothingHolds extends HitCounts {
  reason: ReadingReason;
  polarity: null;
  spreadSamples: null;
  uncertaintySamples: null;
  method: null;
}

/** A microphone is on the move. */
export interface FollowingAnswer extends NothingHolds {
  state: 'following';
  /** where it was at the newest hit */
  delaySamples: number | null;
}

/** Too few hits, or hits that don't say one thing. */
export interface OpenAnswer extends NothingHolds {
  state: 'listening' | 'unclear';
  delaySamples: null;
}

/** What the hits of one drum say. */
export type Answer = MeasuredAnswer | FollowingAnswer | OpenAnswer;

/** The inputs are at fault: nothing is said of a drum but how many hits there are. */
export interface FaultAnswer extends NothingHolds {
  state: InputFault['state'];
  delaySamples: null;
}

/** What a reading says: the shown drum's answer, or why there can't be one. */
export type Said = Answer | FaultAnswer;

/** One of the drums heard. */
export interface DrumFacts {
  /** stays with the drum while it is heard; from 1 */
  id: number;
  /** median peaks of its hits, dBFS */
  levelADbfs: number | null;
  levelBDbfs: number | null;
  /** where the middle of its energy lies in A, Hz: a low drum or a high one */
  centreHz: number | null;
}
export type DrumReading = DrumFacts & Answer;

/** One band over the used hits; numbers null where the coherence is not clearly above its bias. */
export interface BandReading {
  name: BandName;
  lowHz: number;
  highHz: number;
  /** zero-lag correlation in the band, −1…+1 */
  correlation: number | null;
  /** magnitude-squared coherence over the used hits, bias removed, 0…1 */
  coherence: number | null;
  /** level of A+B re the power sum, A and B brought to equal level in the band: −∞…+3.01 dB */
  sumDb: number | null;
  /** the same for A−B */
  sumInvertedDb: number | null;
  /** level of A+B re the power sum, levels as recorded */
  sumAsRecordedDb: number | null;
  /** level of B over A in the band, dB */
  levelDifferenceDb: number | null;
}

/** The complex coherency γ of the used hits on a logarithmic grid: SPECTRUM_POINTS points, spectrumHz(i). */
export interface SumSpectrum {
  /** Re γ, levels equal: A+B re power sum is 10·log10(1+Re γ); NaN where not carried */
  re: Float64Array;
  /** Im γ with B's lag as positive delay: γ(f) = |γ|·exp(−j2πf·delay); NaN where not carried */
  im: Float64Array;
  /** coherence |γ|² with the bias removed, 0…1; NaN where there is no signal */
  coherence: Float64Array;
}

/** Re γ of the used hits, levels equal in each band, once one of the two is delayed so that the arrivals about meet. */
export interface SumNear {
  /** the arrival that the values lie round: B minus A, samples */
  centreSamples: number;
  stepSamples: number;
  /**
   * in the drum's low octave, in SUM_BAND, in each of BANDS: NEAR_POINTS values, at i with B's delay fallen by
   * centreSamples + (i − NEAR_HALF_POINTS)·stepSamples; NaN where the hits don't carry the band
   */
  bands: Float64Array[];
}

/**
 * Re γ of the used hits, levels equal in each band, once one of the two is delayed by a little: in the order of SumNear's bands, at i with B's
 * delay fallen by (i − (re.length−1)/2)·stepSamples; NaN where the hits don't carry the band.
 */
export type SumHere = { stepSamples: number; re: Float64Array }[];

/** What A+B comes to over the shown drum's hits, as things stand. */
export interface SumReading {
  /** zero-lag broadband correlation over the used hits */
  correlation: number | null;
  bands: BandReading[];
  /** which polarity of B sums to more in the drum's own low band, by how many dB, and that band */
  fuller: Fuller | null;
  fullerDb: number | null;
  fullerLowHz: number | null;
  fullerHighHz: number | null;
  /** Re γ in each of LOW_OCTAVES_HZ over the used hits, levels equal, −1…1; null where the hits don't carry it */
  lowOctaves: (number | null)[];
  /** B over A over the used hits, broadband, dB */
  levelDifferenceDb: number | null;
  spectrum: SumSpectrum;
  /** Re γ as things stand, in the drum's low octave, in SUM_BAND, in each of BANDS; null where the hits don't carry it */
  now: (number | null)[];
  /** null: no arrival holds */
  near: SumNear | null;
  /** null: the hits carry no band */
  here: SumHere | null;
}

export interface HitReading {
  /** counts from 1 since the start or restart */
  serial: number;
  /** the earlier arrival (or the trigger where there is none), seconds of the stream */
  timeSeconds: number;
  delaySamples: number | null;
  polarity: Polarity | null;
  fate: HitFate;
  /** id of its drum; null while unknown, or of none */
  drum: number | null;
  levelADbfs: number | null;
  levelBDbfs: number | null;
  /** broadband zero-lag correlation over the hit; null when it has none */
  correlation: number | null;
  /** the same per band, order of BANDS */
  bandCorrelation: (number | null)[];
}

/** Correlation of the trace at `timeSeconds`; null: no value (gated: no signal, or only noise). */
export interface TracePoint {
  timeSeconds: number;
  broadband: number | null;
  /** order of BANDS */
  bands: (number | null)[];
}

/** The arrival curve, the mean of the hits': GCC with partial whitening, −1…+1; sign says polarity. */
export interface ArrivalCurve {
  /** values[i] at lag (i − (values.length−1)/2)·stepSamples */
  values: Float64Array;
  stepSamples: number;
  /** hits behind it; 0: the values mean nothing */
  hits: number;
}

/** What is heard while the input offset is being measured: both inputs fed the same source. Waveforms only. */
export interface OffsetGaugeReading {
  /** hits in the running, and those that agree */
  hits: number;
  agreeing: number;
  /** delay of B's path against A's, and how closely it repeats (median deviation), samples */
  offsetSamples: number | null;
  scatterSamples: number | null;
  polarity: Polarity | null;
  /** how well the two waveforms fit where they fit best, 0…1 */
  height: number | null;
}

export interface Reading {
  sampleRate: number;
  /** seconds of the stream seen since start or restart */
  streamSeconds: number;
  inputs: InputsReading;
  /** null unless the input offset is being measured */
  gauge: OffsetGaugeReading | null;
  /** hits heard since start or restart, of whatever drum */
  hits: number;
  /** hits of one drum that an answer needs at least ("hit 2 of 4") */
  hitsNeeded: number;
  /** the drums heard, the loudest in A above 1 kHz first; at most DRUMS_KEPT */
  drums: DrumReading[];
  /** id of the drum that is shown, one of `drums`; null while none is known, or it is open which of several is meant */
  drum: number | null;
  /** a person chose it; else the meter picked it: the only one, or the one that A, else B, stands at */
  drumChosen: boolean;
  /** what is said while no drum is shown */
  waiting: OpenAnswer;
  /** of the shown drum's hits */
  sum: SumReading;
  curve: ArrivalCurve;
  trace: TracePoint;
  /** the newest hits, oldest first, at most HITS_KEPT: of the shown drum those in the running, however many of others came since */
  perHit: HitReading[];
}

/** The drum that is shown; null while none is. */
export function shownDrum({ drums, drum }: Pick<Reading, 'drums' | 'drum'>): DrumReading | null {
  return drum === null ? null : (drums.find(({ id }) => id === drum) ?? null);
}

/** What the reading says. */
export function answerOf(reading: Pick<Reading, 'drums' | 'drum' | 'waiting' | 'inputs'>): Said {
  const shown = shownDrum(reading) ?? reading.waiting;
  const { fault } = reading.inputs;
  if (fault === null) return shown;
  const { hits, hitsPooled, hitsUsed, agreement } = shown;
  return { ...noAnswer(fault.reason, { hits, hitsPooled, hitsUsed, agreement }), state: fault.state };
}

/** The fields of an answer that holds nothing. */
export function noAnswer(reason: ReadingReason, counts: HitCounts): NothingHolds & { delaySamples: null } {
  return {
    ...counts,
    reason,
    polarity: null,
    delaySamples: null,
    spreadSamples: null,
    uncertaintySamples: null,
    method: null,
  };
}
