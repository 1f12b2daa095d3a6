/** Turns the engine's inner state into a frame: the verdict (state and reason), the numbers, the pooled curve. */

import {
  BAND_FIELDS,
  BANDS_AT,
  CURVE_AT,
  DRUM_FIELDS,
  DRUMS_AT,
  FATES,
  FRAME_VERSION,
  HEAD,
  HIT_FIELDS,
  HITS_AT,
  SPECTRUM_AT,
  TRACE_AT,
} from '../../reading/frame';
import { BAND_COUNT, DRUMS_KEPT, HITS_KEPT, SPECTRUM_POINTS } from '../../reading/reading';
import { METHOD_LOW_BAND, METHOD_WAVEFORM } from '../delay/decision';
import type { OffsetGauge } from '../delay/offsetGauge';
import { HITS_NEEDED } from '../delay/pool';
import { DRUM_SLOTS } from '../drum/drumSorter';
import type { Kit, KitDrum } from '../drumAnswers';
import type { HitAnalyser } from '../hit/hitAnalyser';
import type { HitStore } from '../hit/hitStore';
import type { LevelMeter } from '../input/levels';
import type { OffsetLine } from '../input/offsetLine';
import type { Trace } from '../input/trace';
import { judge, judgeDrum, Verdict } from './verdict';

export interface FrameSources {
  store: HitStore;
  kit: Kit;
  analyser: HitAnalyser;
  levelA: LevelMeter;
  levelB: LevelMeter;
  trace: Trace;
  offset: OffsetLine;
  gauge: OffsetGauge | null;
}

/** above this rate the curve is given at every second, third … lag: it carries nothing above 8 kHz */
const CURVE_RATE = 48000;

export class FrameWriter {
  /** points of the pooled curve */
  readonly curvePoints: number;
  invertB = false;
  /** the verdict stays as it is */
  held = false;
  /** save once, for what a person changed */
  rejudge = false;
  private readonly step: number;
  private readonly half: number;
  private readonly pooled: Float64Array;
  private pooledHits = 0;
  readonly verdict = new Verdict();
  private readonly drumVerdict = new Verdict();
  /** drums by loudness in A */
  private readonly order = new Int32Array(DRUM_SLOTS);

  constructor(
    private readonly sampleRate: number,
    private readonly from: FrameSources,
  ) {
    this.step = Math.max(1, Math.round(sampleRate / CURVE_RATE));
    this.half = Math.floor(from.analyser.maxLagSamples / this.step);
    this.curvePoints = 2 * this.half + 1;
    this.pooled = new Float64Array(this.curvePoints);
  }

  /** Mean curve of the used hits (of the drum's hits while none is used). Real-time safe: yes. */
  poolCurves(): void {
    const { kit, analyser } = this.from;
    const { pool, decision } = kit.shown;
    this.pooled.fill(0);
    this.pooledHits = 0;
    let answered = false;
    for (let i = 0; i < pool.drumHits; i++) if (decision.inAnswer[i]) answered = true;
    const centre = analyser.maxLagSamples;
    for (let i = 0; i < pool.drumHits; i++) {
      if (answered && !decision.inAnswer[i]) continue;
      const base = (pool.drumSlots[i] as number) * analyser.curveLength + centre;
      for (let k = -this.half; k <= this.half; k++) {
        this.pooled[k + this.half] =
          (this.pooled[k + this.half] as number) + (analyser.curves[base + k * this.step] as number);
      }
      this.pooledHits++;
    }
    if (this.pooledHits > 0) {
      for (let k = 0; k < this.curvePoints; k++) this.pooled[k] = (this.pooled[k] as number) / this.pooledHits;
    }
  }

  /** Real-time safe: yes. @param out length frameLength(curvePoints) */
  write(out: Float64Array, frames: number, startFrame: number, zeroRun: number, equalRun: number): void {
    const { store, kit, levelA, levelB, trace } = this.from;
    const { decision, sum: sumPool } = kit.shown;
    const v = this.verdict;
    if (!this.held || this.rejudge) judge(v, this.from, frames - startFrame, zeroRun, equalRun, this.sampleRate);
    this.rejudge = false;
    const flip = this.invertB ? -1 : 1;
    out[HEAD.version] = FRAME_VERSION;
    out[HEAD.sampleRate] = this.sampleRate;
    out[HEAD.streamSeconds] = (frames - startFrame) / this.sampleRate;
    out[HEAD.state] = v.state;
    out[HEAD.reason] = v.reason;
    out[HEAD.offsetSamples] = this.from.offset.offsetSamples;
    this.writeGauge(out);
    out[HEAD.hits] = store.count;
    out[HEAD.hitsUsed] = decision.members;
    out[HEAD.hitsPooled] = decision.drumHits;
    out[HEAD.hitsNeeded] = HITS_NEEDED;
    out[HEAD.polarity] = v.measured ? decision.sign * flip : Number.NaN;
    out[HEAD.delaySamples] = v.measured || v.following ? decision.delay : Number.NaN;
    out[HEAD.spreadSamples] = v.measured ? decision.spread : Number.NaN;
    out[HEAD.agreement] = decision.agreement;
    out[HEAD.uncertaintySamples] = v.measured ? decision.uncertainty : Number.NaN;
    out[HEAD.method] = v.measured ? decision.method : Number.NaN;
    out[HEAD.correlation] = sumPool.correlation * flip;
    const f = sumPool.fuller;
    out[HEAD.fuller] = this.invertB && (f === 0 || f === 1) ? 1 - f : f;
    out[HEAD.fullerDb] = sumPool.fullerDb;
    out[HEAD.fullerLowHz] = sumPool.fullerLowHz;
    out[HEAD.fullerHighHz] = sumPool.fullerHighHz;
    for (let k = 0; k < sumPool.lowOctaves.length; k++)
      out[HEAD.lowOctave0 + k] = (sumPool.lowOctaves[k] as number) * flip;
    out[HEAD.levelDifferenceDb] = sumPool.levelDifferenceDb;
    out[HEAD.aPeakDbfs] = levelA.peakDbfs;
    out[HEAD.aRmsDbfs] = levelA.rmsDbfs;
    out[HEAD.aClips] = levelA.clips;
    out[HEAD.aDc] = levelA.dc;
    out[HEAD.aSilent] = levelA.silent ? 1 : 0;
    out[HEAD.bPeakDbfs] = levelB.peakDbfs;
    out[HEAD.bRmsDbfs] = levelB.rmsDbfs;
    out[HEAD.bClips] = levelB.clips;
    out[HEAD.bDc] = levelB.dc;
    out[HEAD.bSilent] = levelB.silent ? 1 : 0;
    out[HEAD.drum] = kit.shownAt < 0 ? Number.NaN : (kit.drums.id[kit.shownAt] as number);
    out[HEAD.drumChosen] = kit.chosen ? 1 : 0;
    out[HEAD.gap] = v.gap ? 1 : 0;
    out[HEAD.bitIdentical] = v.bitIdentical ? 1 : 0;
    out[HEAD.traceSeconds] = (frames - startFrame) / this.sampleRate;
    out[HEAD.traceBroadband] = trace.broadband * flip;
    out[HEAD.curveStep] = this.step;
    out[HEAD.curveHits] = this.pooledHits;
    // the worklet's own
    out[HEAD.stamp] = 0;
    for (let b = 0; b < BAND_COUNT; b++) {
      out[TRACE_AT + b] = trace.band(b) * flip;
      const at = BANDS_AT + b * BAND_FIELDS;
      const s = b * BAND_FIELDS;
      out[at] = (sumPool.bands[s] as number) * flip;
      out[at + 1] = sumPool.bands[s + 1] as number;
      out[at + 2] = sumPool.bands[s + (this.invertB ? 3 : 2)] as number;
      out[at + 3] = sumPool.bands[s + (this.invertB ? 2 : 3)] as number;
      out[at + 4] = this.asRecorded(s);
      out[at + 5] = sumPool.bands[s + 5] as number;
    }
    this.writeHits(out, startFrame, flip);
    this.writeDrums(out, flip);
    for (let i = 0; i < SPECTRUM_POINTS; i++) {
      out[SPECTRUM_AT + i] = (sumPool.re[i] as number) * flip;
      out[SPECTRUM_AT + SPECTRUM_POINTS + i] = (sumPool.im[i] as number) * flip;
      out[SPECTRUM_AT + 2 * SPECTRUM_POINTS + i] = sumPool.coherence[i] as number;
    }
    for (let k = 0; k < this.curvePoints; k++) out[CURVE_AT + k] = (this.pooled[k] as number) * flip;
  }

  /** The inputs' own polarity: an invert in the reading is not theirs. */
  private writeGauge(out: Float64Array): void {
    const { gauge } = this.from;
    out[HEAD.gauge] = gauge ? 1 : 0;
    if (!gauge) return;
    out[HEAD.gaugeHits] = gauge.hits;
    out[HEAD.gaugeAgreeing] = gauge.says.members;
    out[HEAD.gaugeSamples] = gauge.says.delay;
    out[HEAD.gaugeScatter] = gauge.says.spread;
    out[HEAD.gaugeSign] = gauge.says.members > 0 ? gauge.says.sign : Number.NaN;
    out[HEAD.gaugeHeight] = gauge.height;
  }

  /** Level of A+B as recorded: with B inverted the cross term changes its sign. */
  private asRecorded(s: number): number {
    const sum = this.from.kit.shown.sum.bands[s + 4] as number;
    if (!this.invertB) return sum;
    return 10 * Math.log10(Math.max(2 - 10 ** (sum / 10), 1e-12));
  }

  private writeHits(out: Float64Array, startFrame: number, flip: number): void {
    const { store, kit } = this.from;
    let n = 0;
    for (let serial = Math.max(store.first, store.count - HITS_KEPT + 1); serial <= store.count; serial++) {
      const s = store.slot(serial);
      const at = HITS_AT + n * HIT_FIELDS;
      const d = store.drum[s] as number;
      // each hit says what its drum's witness says of it
      const method = d < 0 ? 0 : (kit.each[d] as KitDrum).decision.method;
      const delays =
        method === METHOD_WAVEFORM ? store.waveDelay : method === METHOD_LOW_BAND ? store.lowDelay : store.pickDelay;
      const signs =
        method === METHOD_WAVEFORM ? store.waveSign : method === METHOD_LOW_BAND ? store.lowSign : store.pickSign;
      out[at] = serial;
      out[at + 1] = ((store.anchor[s] as number) - startFrame) / this.sampleRate;
      out[at + 2] = delays[s] as number;
      out[at + 3] = Number.isNaN(delays[s] as number) ? Number.NaN : (signs[s] as number) * flip;
      out[at + 4] = Math.min(FATES.length - 1, store.fate[s] as number);
      out[at + 5] = store.levelA[s] as number;
      out[at + 6] = store.levelB[s] as number;
      out[at + 7] = d < 0 ? Number.NaN : (kit.drums.id[d] as number);
      if (store.hasSum[s]) {
        putRatio(out, at + 8, store.product, store.energyA, store.energyB, s, flip);
        for (let b = 0; b < BAND_COUNT; b++) {
          putRatio(out, at + 9 + b, store.bandProduct, store.bandA, store.bandB, s * BAND_COUNT + b, flip);
        }
      } else out.fill(Number.NaN, at + 8, at + 9 + BAND_COUNT);
      n++;
    }
    out[HEAD.hitCount] = n;
  }

  private writeDrums(out: Float64Array, flip: number): void {
    const { kit } = this.from;
    const { drums } = kit;
    const { order } = this;
    let n = 0;
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if (drums.id[d] === 0 || (drums.loudness(d) === 0 && d !== kit.shownAt)) continue;
      let at = n++;
      while (at > 0 && drums.loudness(order[at - 1] as number) < drums.loudness(d)) {
        order[at] = order[at - 1] as number;
        at--;
      }
      order[at] = d;
    }
    n = Math.min(n, DRUMS_KEPT);
    const v = this.drumVerdict;
    for (let i = 0; i < n; i++) {
      const d = order[i] as number;
      const { pool, decision } = kit.each[d] as KitDrum;
      judgeDrum(v, decision, kit.length);
      const at = DRUMS_AT + i * DRUM_FIELDS;
      out[at] = drums.id[d] as number;
      out[at + 1] = drums.hits[d] as number;
      out[at + 2] = decision.drumHits;
      out[at + 3] = decision.members;
      out[at + 4] = v.state;
      out[at + 5] = v.reason;
      out[at + 6] = v.measured ? decision.sign * flip : Number.NaN;
      out[at + 7] = v.measured || v.following ? decision.delay : Number.NaN;
      out[at + 8] = v.measured ? decision.spread : Number.NaN;
      out[at + 9] = decision.agreement;
      out[at + 10] = v.measured ? decision.uncertainty : Number.NaN;
      out[at + 11] = pool.levelADbfs;
      out[at + 12] = pool.levelBDbfs;
      out[at + 13] = drums.centreHz(d);
    }
    out[HEAD.drumCount] = n;
  }
}

/**
 * out[at] = ±product / √(a·b) of element k, −1…+1; 0/0 without signal is the NaN that stands for no value. Arrays in, and
 * no choice between a fraction and NaN: either makes some compilers box the number, and forty frames a second of
 * boxes keep the audio thread's garbage collector busy (seen by heap sampling in the browser).
 */
function putRatio(
  out: Float64Array,
  at: number,
  product: Float64Array,
  a: Float64Array,
  b: Float64Array,
  k: number,
  flip: number,
): void {
  const r = (product[k] as number) / Math.sqrt((a[k] as number) * (b[k] as number));
  out[at] = flip * Math.max(-1, Math.min(1, r));
}
