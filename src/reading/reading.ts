/**
 * What the engine says: one Reading, and the words it may use.
 *
 * Conventions, everywhere in the program:
 * - delay = arrival at B minus arrival at A; positive: B hears the drum later
 * - polarity is of B's first push against A's: `same` or `inverted`
 * - `null` means "no value" (silence, too little evidence), never 0 or NaN
 * - levels are dBFS with a full-scale sine's RMS at 0 (AES17): plain RMS + 3.01 dB; peaks are 20·log10|sample|
 */

export type ReadingState =
  /** an arrival is locked: polarity and delay hold */
  | 'measured'
  /** too few hits to say */
  | 'listening'
  /** a microphone is on the move: provisional */
  | 'following'
  /** hits, but they don't agree or don't belong together */
  | 'unclear'
  /** one or both inputs are silent */
  | 'no-signal'
  /** A and B are one signal, gain and sign aside */
  | 'same-signal'
  /** clipped inside the arrival of more than half of the hits */
  | 'overloaded';

/** Why the state is what it is; the sentence for people is made in src/advice. */
export type ReadingReason =
  | 'agreed'
  | 'nothing-yet'
  | 'too-few-hits'
  | 'a-silent'
  | 'b-silent'
  | 'both-silent'
  | 'no-data'
  | 'gain-copy'
  | 'bit-identical'
  | 'clipped-a'
  | 'clipped-b'
  | 'hits-disagree'
  | 'witnesses-disagree'
  | 'arrival-hidden'
  | 'low-end-only-a'
  | 'low-end-only-b'
  | 'several-drums'
  | 'moving'
  | 'moved'
  | 'no-common-signal';

export type Polarity = 'same' | 'inverted';

/** Which polarity of B sums to more in the drum's own low band as things stand. */
export type Fuller = 'as-is' | 'inverted' | 'either';

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

/** The fixed bands, Hz. */
export const BANDS = [
  { name: 'low', lowHz: 30, highHz: 150 },
  { name: 'body', lowHz: 150, highHz: 800 },
  { name: 'mid', lowHz: 800, highHz: 3000 },
  { name: 'attack', lowHz: 3000, highHz: 10000 },
] as const;
export type BandName = (typeof BANDS)[number]['name'];
export const BAND_COUNT = BANDS.length;

/** Low edges of the octaves in which the drum's own low band is looked for: mid 63, 125, 250, 500 Hz (IEC 61260, base 2, from memory). */
export const LOW_OCTAVES_HZ: readonly number[] = [1, 2, 3, 4].map((k) => (1000 / Math.SQRT2) * 2 ** (k - 5));

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

/** What became of a hit, within the pool of its own drum. */
export type HitFate =
  /** behind its drum's answer */
  | 'used'
  | 'pending'
  /** no first push can be seen in one of the channels: noise, or something before it, hides it */
  | 'no-arrival'
  /** a first push, but not where most of its drum's hits have it */
  | 'disagrees'
  /** of no drum that is kept */
  | 'other-drum'
  | 'clipped'
  | 'quiet'
  | 'one-side-only'
  | 'gap'
  /** before a move, or too long ago */
  | 'old'
  /** two drums within 20 ms: neither can be read */
  | 'two-drums'
  /** it began while the hit before it was still being read */
  | 'too-soon';

/** hits of other drums than these few are left out */
export const DRUMS_KEPT = 4;

/** One of the drums heard, and its own answer. */
export interface DrumReading {
  /** stays with the drum while it is heard; from 1 */
  id: number;
  /** hits of it since start or restart, in the running, and behind its answer */
  hits: number;
  hitsPooled: number;
  hitsUsed: number;
  /** the same words as the Reading's, for this drum alone */
  state: ReadingState;
  reason: ReadingReason;
  polarity: Polarity | null;
  delaySamples: number | null;
  spreadSamples: number | null;
  agreement: number | null;
  uncertaintySamples: number | null;
  /** median peaks of its hits, dBFS */
  levelADbfs: number | null;
  levelBDbfs: number | null;
  /** where the middle of its energy lies in A, Hz: a low drum or a high one */
  centreHz: number | null;
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

/** The complex coherency γ of the used hits on a logarithmic grid: SPECTRUM_POINTS points, spectrumHz(i). */
export interface SumSpectrum {
  /** Re γ, levels equal: A+B re power sum is 10·log10(1+Re γ); NaN where not carried */
  re: Float64Array;
  /** Im γ with B's lag as positive delay: γ(f) = |γ|·exp(−j2πf·delay); NaN where not carried */
  im: Float64Array;
  /** coherence |γ|² with the bias removed, 0…1; NaN where there is no signal */
  coherence: Float64Array;
}

export const SPECTRUM_POINTS = 241;
export const SPECTRUM_LOW_HZ = 20;
export const SPECTRUM_HIGH_HZ = 20000;
/** Frequency of grid point i, Hz: 20 Hz at 0, 20 kHz at SPECTRUM_POINTS−1, logarithmic. */
export function spectrumHz(i: number): number {
  return GRID_HZ[i] as number;
}
const GRID_HZ = Float64Array.from(
  { length: SPECTRUM_POINTS },
  (_, i) => SPECTRUM_LOW_HZ * (SPECTRUM_HIGH_HZ / SPECTRUM_LOW_HZ) ** (i / (SPECTRUM_POINTS - 1)),
);

/** Correlation of the trace at `timeSeconds`; null: no value (gated: no signal, or only noise). */
export interface TracePoint {
  timeSeconds: number;
  broadband: number | null;
  /** order of BANDS */
  bands: (number | null)[];
}

/** The pooled arrival curve: GCC with partial whitening, −1…+1; sign says polarity. */
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
  state: ReadingState;
  reason: ReadingReason;
  /** input offset taken out before anything else, samples: delay of B's path against A's; 0: none */
  offsetSamples: number;
  /** null unless the input offset is being measured */
  gauge: OffsetGaugeReading | null;
  /** hits heard since start or restart */
  hits: number;
  /** hits behind the reading */
  hitsUsed: number;
  /** hits in the running for the reading, and how many it needs at least ("hit 2 of 4") */
  hitsPooled: number;
  hitsNeeded: number;
  polarity: Polarity | null;
  delaySamples: number | null;
  /** repeats within: half-width within which half of the used hits lie, samples */
  spreadSamples: number | null;
  /** share of the pooled hits that agree, 0–1 */
  agreement: number | null;
  /** 90 % uncertainty of the delay, pick bias included; null until known */
  uncertaintySamples: number | null;
  /** which witness the delay comes from */
  method: 'first-arrival' | 'waveform' | 'low-band' | null;
  /** id of the drum that all of this is about; null while none is known */
  drum: number | null;
  /** a person chose it; else it is the loudest in A */
  drumChosen: boolean;
  /** the drums heard, the loudest in A first; at most DRUMS_KEPT */
  drums: DrumReading[];
  /** zero-lag broadband correlation over the used hits */
  correlation: number | null;
  bands: BandReading[];
  fuller: Fuller | null;
  fullerDb: number | null;
  fullerLowHz: number | null;
  fullerHighHz: number | null;
  /** Re γ in each of LOW_OCTAVES_HZ over the used hits, levels equal, −1…1; null where the hits don't carry it */
  lowOctaves: (number | null)[];
  /** B over A over the used hits, broadband, dB */
  levelDifferenceDb: number | null;
  a: ChannelLevel;
  b: ChannelLevel;
  /** both channels exactly zero right now: no data */
  gap: boolean;
  /** every sample that isn't 0 has been equal in A and B for at least 0.2 s of such samples */
  bitIdentical: boolean;
  trace: TracePoint;
  curve: ArrivalCurve;
  spectrum: SumSpectrum;
  /** the newest hits, oldest first, at most HITS_KEPT */
  perHit: HitReading[];
}

export const HITS_KEPT = 32;
