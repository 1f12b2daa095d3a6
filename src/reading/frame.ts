/**
 * A Reading packed into one Float64Array: it crosses threads by transfer, and the audio thread writes it without
 * allocating. NaN stands for null. Layout: HEAD scalars · bands · trace · hits · drums · spectrum (re, im, coherence) · curve.
 */
import {
  BAND_COUNT,
  BANDS,
  type BandReading,
  DRUMS_KEPT,
  type DrumReading,
  type Fuller,
  HITS_KEPT,
  type HitFate,
  type HitReading,
  LOW_OCTAVES_HZ,
  type Polarity,
  type Reading,
  type ReadingReason,
  type ReadingState,
  SPECTRUM_POINTS,
} from './reading';

export const FRAME_VERSION = 4;

export const STATES: readonly ReadingState[] = [
  'measured',
  'listening',
  'following',
  'unclear',
  'no-signal',
  'same-signal',
  'overloaded',
];
export const REASONS: readonly ReadingReason[] = [
  'agreed',
  'nothing-yet',
  'too-few-hits',
  'a-silent',
  'b-silent',
  'both-silent',
  'no-data',
  'gain-copy',
  'bit-identical',
  'clipped-a',
  'clipped-b',
  'hits-disagree',
  'witnesses-disagree',
  'arrival-hidden',
  'low-end-only-a',
  'low-end-only-b',
  'several-drums',
  'moving',
  'moved',
  'no-common-signal',
];
export const FATES: readonly HitFate[] = [
  'used',
  'pending',
  'no-arrival',
  'disagrees',
  'other-drum',
  'clipped',
  'quiet',
  'one-side-only',
  'gap',
  'old',
  'two-drums',
  'too-soon',
];
const FULLER: readonly Fuller[] = ['as-is', 'inverted', 'either'];
const METHODS = ['first-arrival', 'waveform', 'low-band'] as const;

/** Scalar slots, in order. Index by `HEAD.name`. */
const HEAD_NAMES = [
  'version',
  'sampleRate',
  'streamSeconds',
  'state',
  'reason',
  'offsetSamples',
  'gauge',
  'gaugeHits',
  'gaugeAgreeing',
  'gaugeSamples',
  'gaugeScatter',
  'gaugeSign',
  'gaugeHeight',
  'hits',
  'hitsUsed',
  'hitsPooled',
  'hitsNeeded',
  'polarity',
  'delaySamples',
  'spreadSamples',
  'agreement',
  'uncertaintySamples',
  'method',
  'correlation',
  'fuller',
  'fullerDb',
  'fullerLowHz',
  'fullerHighHz',
  'lowOctave0',
  'lowOctave1',
  'lowOctave2',
  'lowOctave3',
  'levelDifferenceDb',
  'aPeakDbfs',
  'aRmsDbfs',
  'aClips',
  'aDc',
  'aSilent',
  'bPeakDbfs',
  'bRmsDbfs',
  'bClips',
  'bDc',
  'bSilent',
  'gap',
  'bitIdentical',
  'traceSeconds',
  'traceBroadband',
  'hitCount',
  'drum',
  'drumChosen',
  'drumCount',
  'curveStep',
  'curveHits',
  'stamp',
] as const;
export type HeadName = (typeof HEAD_NAMES)[number];
export const HEAD: Readonly<Record<HeadName, number>> = Object.fromEntries(HEAD_NAMES.map((n, i) => [n, i])) as Record<
  HeadName,
  number
>;

/** Per band: correlation, coherence, sumDb, sumInvertedDb, sumAsRecordedDb, levelDifferenceDb. */
export const BAND_FIELDS = 6;
/** Per hit: serial, timeSeconds, delaySamples, polarity, fate, levelA, levelB, drum, correlation, then one per band. */
export const HIT_FIELDS = 9 + BAND_COUNT;
/** Per drum, as DrumReading has them: id … centreHz. */
export const DRUM_FIELDS = 14;

export const BANDS_AT = HEAD_NAMES.length;
export const TRACE_AT = BANDS_AT + BAND_COUNT * BAND_FIELDS;
export const HITS_AT = TRACE_AT + BAND_COUNT;
export const DRUMS_AT = HITS_AT + HITS_KEPT * HIT_FIELDS;
export const SPECTRUM_AT = DRUMS_AT + DRUMS_KEPT * DRUM_FIELDS;
export const CURVE_AT = SPECTRUM_AT + 3 * SPECTRUM_POINTS;

/** Number of doubles in a frame whose arrival curve has `curvePoints` points. */
export function frameLength(curvePoints: number): number {
  return CURVE_AT + curvePoints;
}

/** +1 same, −1 inverted, NaN none. */
function polarityOf(sign: number): Polarity | null {
  if (Number.isNaN(sign)) return null;
  return sign > 0 ? 'same' : 'inverted';
}

const orNull = (x: number): number | null => (Number.isNaN(x) ? null : x);
const pick = <T>(list: readonly T[], x: number): T | null => (Number.isNaN(x) ? null : (list[x] ?? null));

function drumsOf(frame: Float64Array, count: number): DrumReading[] {
  return Array.from({ length: count }, (_, i) => {
    const at = DRUMS_AT + i * DRUM_FIELDS;
    const v = (k: number): number => frame[at + k] as number;
    return {
      id: v(0),
      hits: v(1),
      hitsPooled: v(2),
      hitsUsed: v(3),
      state: pick(STATES, v(4)) ?? 'listening',
      reason: pick(REASONS, v(5)) ?? 'nothing-yet',
      polarity: polarityOf(v(6)),
      delaySamples: orNull(v(7)),
      spreadSamples: orNull(v(8)),
      agreement: orNull(v(9)),
      uncertaintySamples: orNull(v(10)),
      levelADbfs: orNull(v(11)),
      levelBDbfs: orNull(v(12)),
      centreHz: orNull(v(13)),
    };
  });
}

/** The stamp of what the page asked for last when this frame was written; 0: nothing yet. Real-time safe: yes. */
export const stampOf = (frame: Float64Array): number => frame[HEAD.stamp] as number;

/**
 * Unpack a frame. Real-time safe: no (allocates).
 * @throws RangeError when the frame is not of this version or too short
 */
export function readingFromFrame(frame: Float64Array): Reading {
  if (frame.length < CURVE_AT)
    throw new RangeError(`frame must have length ${CURVE_AT} or more but had ${frame.length}`);
  if (frame[HEAD.version] !== FRAME_VERSION)
    throw new RangeError(`frame must be of version ${FRAME_VERSION} but was ${frame[HEAD.version]}`);
  const h = (name: HeadName): number => frame[HEAD[name]] as number;
  const n = (name: HeadName): number | null => orNull(h(name));

  const bands: BandReading[] = BANDS.map((band, i) => {
    const at = BANDS_AT + i * BAND_FIELDS;
    const v = (k: number): number | null => orNull(frame[at + k] as number);
    return {
      name: band.name,
      lowHz: band.lowHz,
      highHz: band.highHz,
      correlation: v(0),
      coherence: v(1),
      sumDb: v(2),
      sumInvertedDb: v(3),
      sumAsRecordedDb: v(4),
      levelDifferenceDb: v(5),
    };
  });

  const perHit: HitReading[] = [];
  for (let i = 0; i < h('hitCount'); i++) {
    const at = HITS_AT + i * HIT_FIELDS;
    const v = (k: number): number => frame[at + k] as number;
    perHit.push({
      serial: v(0),
      timeSeconds: v(1),
      delaySamples: orNull(v(2)),
      polarity: polarityOf(v(3)),
      fate: pick(FATES, v(4)) ?? 'pending',
      levelADbfs: orNull(v(5)),
      levelBDbfs: orNull(v(6)),
      drum: orNull(v(7)),
      correlation: orNull(v(8)),
      bandCorrelation: BANDS.map((_, b) => orNull(v(9 + b))),
    });
  }

  const S = SPECTRUM_POINTS;
  return {
    sampleRate: h('sampleRate'),
    streamSeconds: h('streamSeconds'),
    state: pick(STATES, h('state')) ?? 'listening',
    reason: pick(REASONS, h('reason')) ?? 'nothing-yet',
    offsetSamples: h('offsetSamples'),
    gauge:
      h('gauge') === 1
        ? {
            hits: h('gaugeHits'),
            agreeing: h('gaugeAgreeing'),
            offsetSamples: n('gaugeSamples'),
            scatterSamples: n('gaugeScatter'),
            polarity: polarityOf(h('gaugeSign')),
            height: n('gaugeHeight'),
          }
        : null,
    hits: h('hits'),
    hitsUsed: h('hitsUsed'),
    hitsPooled: h('hitsPooled'),
    hitsNeeded: h('hitsNeeded'),
    polarity: polarityOf(h('polarity')),
    delaySamples: n('delaySamples'),
    spreadSamples: n('spreadSamples'),
    agreement: n('agreement'),
    uncertaintySamples: n('uncertaintySamples'),
    method: pick(METHODS, h('method')),
    drum: n('drum'),
    drumChosen: h('drumChosen') === 1,
    drums: drumsOf(frame, h('drumCount')),
    correlation: n('correlation'),
    bands,
    fuller: pick(FULLER, h('fuller')),
    fullerDb: n('fullerDb'),
    fullerLowHz: n('fullerLowHz'),
    fullerHighHz: n('fullerHighHz'),
    lowOctaves: LOW_OCTAVES_HZ.map((_, k) => orNull(frame[HEAD.lowOctave0 + k] as number)),
    levelDifferenceDb: n('levelDifferenceDb'),
    a: {
      peakDbfs: n('aPeakDbfs'),
      rmsDbfs: n('aRmsDbfs'),
      clips: h('aClips'),
      dc: h('aDc'),
      silent: h('aSilent') === 1,
    },
    b: {
      peakDbfs: n('bPeakDbfs'),
      rmsDbfs: n('bRmsDbfs'),
      clips: h('bClips'),
      dc: h('bDc'),
      silent: h('bSilent') === 1,
    },
    gap: h('gap') === 1,
    bitIdentical: h('bitIdentical') === 1,
    trace: {
      timeSeconds: h('traceSeconds'),
      broadband: n('traceBroadband'),
      bands: BANDS.map((_, b) => orNull(frame[TRACE_AT + b] as number)),
    },
    curve: { values: frame.slice(CURVE_AT), stepSamples: h('curveStep'), hits: h('curveHits') },
    spectrum: {
      re: frame.slice(SPECTRUM_AT, SPECTRUM_AT + S),
      im: frame.slice(SPECTRUM_AT + S, SPECTRUM_AT + 2 * S),
      coherence: frame.slice(SPECTRUM_AT + 2 * S, SPECTRUM_AT + 3 * S),
    },
    perHit,
  };
}
