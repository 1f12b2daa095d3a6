/**
 * A Reading packed into one Float64Array, which the audio thread writes without allocating: each part is described once
 * here (record.ts), the writer (src/dsp/out/frameWriter.ts) asks for its slots, the reader unpacks by the same description.
 * Layout: head · bands · hits · drums · spectrum (re, im, coherence) · near and here (band after band each) · curve.
 */
import {
  BAND_COUNT,
  BANDS,
  HERE_BEGINS,
  HERE_LENGTH,
  HERE_STEPS,
  herePoints,
  INPUT_BAND_COUNT,
  LOW_OCTAVES_HZ,
  NEAR_BANDS,
  NEAR_POINTS,
  SPECTRUM_POINTS,
} from './bands';
import { DRUM_STATES, FATES, FULLER, METHODS, REASONS, STATES } from './codes';
import { faultOf } from './inputFault';
import { DRUMS_KEPT, HITS_KEPT } from './limits';
import { type ChannelLevel, type DrumReading, noAnswer, type Reading, type SumHere, type SumNear } from './reading';
import { flag, group, list, number, optional, polarity, word } from './record';

export const FRAME_VERSION = 9;

/** What a reading has once. */
const HEAD = group({
  version: number,
  /** of what the page asked for last; the worklet's own */
  stamp: number,
  /** the audio thread doesn't keep up: no reading is certain; the worklet's own too */
  dropping: flag,
  sampleRate: number,
  streamSeconds: number,
  /** of the whole: an inputs' fault, or what is said while no drum is shown */
  state: word(STATES, 'listening'),
  reason: word(REASONS, 'nothing-yet'),
  offsetSamples: number,
  gap: flag,
  bitIdentical: flag,
  aPeakDbfs: optional,
  aRmsDbfs: optional,
  aClips: number,
  aDc: number,
  aSilent: flag,
  bPeakDbfs: optional,
  bRmsDbfs: optional,
  bClips: number,
  bDc: number,
  bSilent: flag,
  noiseWindows: number,
  noiseZeroSeconds: number,
  noiseA: list(INPUT_BAND_COUNT, number),
  noiseB: list(INPUT_BAND_COUNT, number),
  noiseProduct: list(INPUT_BAND_COUNT, number),
  noiseFloorA: list(INPUT_BAND_COUNT, number),
  noiseFloorB: list(INPUT_BAND_COUNT, number),
  gauge: flag,
  gaugeHits: number,
  gaugeAgreeing: number,
  gaugeSamples: optional,
  gaugeScatter: optional,
  gaugePolarity: polarity,
  gaugeHeight: optional,
  hits: number,
  hitsNeeded: number,
  hitCount: number,
  drumCount: number,
  drum: optional,
  drumChosen: flag,
  correlation: optional,
  levelDifferenceDb: optional,
  fuller: word(FULLER, null),
  fullerDb: optional,
  fullerLowHz: optional,
  fullerHighHz: optional,
  lowOctaves: list(LOW_OCTAVES_HZ.length, optional),
  sumNow: list(NEAR_BANDS, optional),
  nearCentreSamples: optional,
  nearStepSamples: number,
  traceSeconds: number,
  traceBroadband: optional,
  traceBands: list(BAND_COUNT, optional),
  curveStep: number,
  curveHits: number,
});

/** One of BANDS. */
const BAND = group({
  correlation: optional,
  coherence: optional,
  sumDb: optional,
  sumInvertedDb: optional,
  sumAsRecordedDb: optional,
  levelDifferenceDb: optional,
});

const HIT = group({
  serial: number,
  timeSeconds: number,
  delaySamples: optional,
  polarity,
  fate: word(FATES, 'pending'),
  levelADbfs: optional,
  levelBDbfs: optional,
  drum: optional,
  correlation: optional,
  bandCorrelation: list(BAND_COUNT, optional),
});

const DRUM = group({
  id: number,
  hits: number,
  hitsPooled: number,
  hitsUsed: number,
  agreement: optional,
  state: word(DRUM_STATES, 'listening'),
  reason: word(REASONS, 'nothing-yet'),
  polarity,
  delaySamples: optional,
  spreadSamples: optional,
  uncertaintySamples: optional,
  method: word(METHODS, null),
  levelADbfs: optional,
  levelBDbfs: optional,
  centreHz: optional,
});

/** numbers of a band, in a frame and wherever bands are kept like that */
export const BAND_LENGTH = BAND.length;
/** Where the writer puts things: the groups' slots, and where each group begins. */
export const SLOT = { head: HEAD.slot, band: BAND.slot, hit: HIT.slot, drum: DRUM.slot } as const;
const BANDS_AT = HEAD.length;
const HITS_AT = BANDS_AT + BAND_COUNT * BAND.length;
const DRUMS_AT = HITS_AT + HITS_KEPT * HIT.length;
const RE_AT = DRUMS_AT + DRUMS_KEPT * DRUM.length;
const IM_AT = RE_AT + SPECTRUM_POINTS;
const COHERENCE_AT = IM_AT + SPECTRUM_POINTS;
const NEAR_AT = COHERENCE_AT + SPECTRUM_POINTS;
const HERE_AT = NEAR_AT + NEAR_BANDS * NEAR_POINTS;
const CURVE_AT = HERE_AT + HERE_LENGTH;
export const AT = {
  re: RE_AT,
  im: IM_AT,
  coherence: COHERENCE_AT,
  near: NEAR_AT,
  here: HERE_AT,
  curve: CURVE_AT,
  /** Real-time safe: yes. */
  band: (i: number): number => BANDS_AT + i * BAND.length,
  hit: (i: number): number => HITS_AT + i * HIT.length,
  drum: (i: number): number => DRUMS_AT + i * DRUM.length,
} as const;

/** Number of doubles in a frame whose arrival curve has `curvePoints` points. */
export function frameLength(curvePoints: number): number {
  return CURVE_AT + curvePoints;
}

/** The stamp of what the page asked for last when this frame was written; 0: nothing yet. Real-time safe: yes. */
export const stampOf = (frame: Float64Array): number => frame[SLOT.head.stamp] as number;

/** What a frame says of the stream itself, without unpacking it. */
export interface FrameArrival {
  /** seconds of the stream seen since start or restart */
  streamSeconds: number;
  /** both inputs exactly zero for LEVEL_WINDOW_SECONDS: no converter delivers that */
  empty: boolean;
  /** the audio thread says that it drops samples again and again */
  dropping: boolean;
}

/** s that the peaks of a frame look back */
export const LEVEL_WINDOW_SECONDS = 0.4;

export function arrivalOf(frame: Float64Array): FrameArrival {
  const { streamSeconds, aPeakDbfs, bPeakDbfs, dropping } = SLOT.head;
  const isZero = (slot: number): boolean => Number.isNaN(frame[slot] as number);
  return {
    streamSeconds: frame[streamSeconds] as number,
    empty: isZero(aPeakDbfs) && isZero(bPeakDbfs),
    dropping: frame[dropping] === 1,
  };
}

/** Real-time safe: yes. */
export const putStamp = (frame: Float64Array, stamp: number): void => {
  frame[SLOT.head.stamp] = stamp;
};

/** Real-time safe: yes. */
export const putDropping = (frame: Float64Array, on: boolean): void => {
  frame[SLOT.head.dropping] = on ? 1 : 0;
};

/**
 * Unpack a frame. Real-time safe: no (allocates).
 * @throws RangeError when the frame is not of this version or too short
 */
export function readingFromFrame(frame: Float64Array): Reading {
  if (frame.length < CURVE_AT)
    throw new RangeError(`frame must have length ${CURVE_AT} or more but had ${frame.length}`);
  const head = HEAD.read(frame, 0);
  if (head.version !== FRAME_VERSION)
    throw new RangeError(`frame must be of version ${FRAME_VERSION} but was ${head.version}`);
  const channel = (c: 'a' | 'b'): ChannelLevel => ({
    peakDbfs: head[`${c}PeakDbfs`],
    rmsDbfs: head[`${c}RmsDbfs`],
    clips: head[`${c}Clips`],
    dc: head[`${c}Dc`],
    silent: head[`${c}Silent`],
  });
  const { state, reason } = head;
  return {
    sampleRate: head.sampleRate,
    streamSeconds: head.streamSeconds,
    inputs: {
      a: channel('a'),
      b: channel('b'),
      gap: head.gap,
      bitIdentical: head.bitIdentical,
      offsetSamples: head.offsetSamples,
      noise: {
        windows: head.noiseWindows,
        zeroSeconds: head.noiseZeroSeconds,
        a: head.noiseA,
        b: head.noiseB,
        product: head.noiseProduct,
        floorA: head.noiseFloorA,
        floorB: head.noiseFloorB,
      },
      fault: faultOf(state, reason),
    },
    gauge: head.gauge
      ? {
          hits: head.gaugeHits,
          agreeing: head.gaugeAgreeing,
          offsetSamples: head.gaugeSamples,
          scatterSamples: head.gaugeScatter,
          polarity: head.gaugePolarity,
          height: head.gaugeHeight,
        }
      : null,
    hits: head.hits,
    hitsNeeded: head.hitsNeeded,
    drums: Array.from({ length: head.drumCount }, (_, i) => drumOf(frame, i)),
    drum: head.drum,
    drumChosen: head.drumChosen,
    waiting: {
      ...noAnswer(reason, { hits: head.hits, hitsPooled: 0, hitsUsed: 0, agreement: null }),
      state: state === 'unclear' ? 'unclear' : 'listening',
    },
    sum: {
      correlation: head.correlation,
      bands: BANDS.map((band, i) => ({ ...band, ...BAND.read(frame, AT.band(i)) })),
      fuller: head.fuller,
      fullerDb: head.fullerDb,
      fullerLowHz: head.fullerLowHz,
      fullerHighHz: head.fullerHighHz,
      lowOctaves: head.lowOctaves,
      levelDifferenceDb: head.levelDifferenceDb,
      spectrum: {
        re: frame.slice(RE_AT, IM_AT),
        im: frame.slice(IM_AT, COHERENCE_AT),
        coherence: frame.slice(COHERENCE_AT, NEAR_AT),
      },
      now: head.sumNow,
      near: nearOf(frame, head),
      here: hereOf(frame, head),
    },
    curve: { values: frame.slice(CURVE_AT), stepSamples: head.curveStep, hits: head.curveHits },
    trace: { timeSeconds: head.traceSeconds, broadband: head.traceBroadband, bands: head.traceBands },
    perHit: Array.from({ length: head.hitCount }, (_, i) => HIT.read(frame, AT.hit(i))),
  };
}

function nearOf(
  frame: Float64Array,
  {
    nearCentreSamples: centreSamples,
    nearStepSamples: stepSamples,
  }: Pick<ReturnType<typeof HEAD.read>, 'nearCentreSamples' | 'nearStepSamples'>,
): SumNear | null {
  if (centreSamples === null) return null;
  const bands = Array.from({ length: NEAR_BANDS }, (_, n) =>
    frame.slice(NEAR_AT + n * NEAR_POINTS, NEAR_AT + (n + 1) * NEAR_POINTS),
  );
  return { centreSamples, stepSamples, bands };
}

/** Null where no band is carried, as `now` is then. */
function hereOf(
  frame: Float64Array,
  { sumNow, nearStepSamples }: Pick<ReturnType<typeof HEAD.read>, 'sumNow' | 'nearStepSamples'>,
): SumHere | null {
  if (sumNow.every((re) => re === null)) return null;
  return HERE_STEPS.map((step, n) => {
    const at = HERE_AT + (HERE_BEGINS[n] as number);
    return { stepSamples: step * nearStepSamples, re: frame.slice(at, at + herePoints(n)) };
  });
}

function drumOf(frame: Float64Array, i: number): DrumReading {
  const {
    state,
    reason,
    polarity: sign,
    delaySamples,
    spreadSamples,
    uncertaintySamples,
    method,
    ...rest
  } = DRUM.read(frame, AT.drum(i));
  if (state === 'measured' && sign !== null && delaySamples !== null)
    return { ...rest, state, reason, polarity: sign, delaySamples, spreadSamples, uncertaintySamples, method };
  const nothing = noAnswer(reason, rest);
  if (state === 'following') return { ...rest, ...nothing, state, delaySamples };
  return { ...rest, ...nothing, state: state === 'listening' ? 'listening' : 'unclear' };
}
