/** Turns the engine's inner state into a frame: the verdict (state and reason), the numbers, the mean curve. */

import { BAND_COUNT, HERE_LENGTH, NEAR_BANDS, NEAR_POINTS, nearStep, SPECTRUM_POINTS } from '../../reading/bands';
import { FATES, FULLER_CODE, METHOD } from '../../reading/codes';
import { AT, BAND_LENGTH, FRAME_VERSION, SLOT } from '../../reading/frame';
import { DRUMS_KEPT } from '../../reading/limits';
import { DRUM_SLOTS } from '../drum/drumSorter';
import { TUNING, type Tuning } from '../tuning';
import { putRatio } from './putRatio';
import type { DrumSource, FrameSources } from './sources';
import { ToldHits } from './toldHits';
import { judge, judgeDrum, Verdict } from './verdict';

/** above this rate the curve is given at every second, third … lag: it carries nothing above 8 kHz */
const CURVE_RATE = 48000;

export class FrameWriter {
  /** points of the mean curve */
  readonly curvePoints: number;
  invertB = false;
  /** the verdict stays as it is */
  held = false;
  /** save once, for what a person changed */
  rejudge = false;
  private readonly step: number;
  private readonly half: number;
  private readonly mean: Float64Array;
  private meanHits = 0;
  readonly verdict = new Verdict();
  private readonly drumVerdict = new Verdict();
  /** drums by loudness in A */
  private readonly order = new Int32Array(DRUM_SLOTS);
  private readonly told = new ToldHits();

  constructor(
    private readonly sampleRate: number,
    private readonly from: FrameSources,
    private readonly tuning: Tuning = TUNING,
  ) {
    this.step = Math.max(1, Math.round(sampleRate / CURVE_RATE));
    this.half = Math.floor(from.analyser.widest.maxLagSamples / this.step);
    this.curvePoints = 2 * this.half + 1;
    this.mean = new Float64Array(this.curvePoints);
  }

  /** Mean curve of the used hits (of the drum's hits while none is used). Real-time safe: yes. */
  meanCurves(): void {
    const { heard, analyser } = this.from;
    const { pool, decision } = heard.shown;
    this.mean.fill(0);
    this.meanHits = 0;
    let answered = false;
    for (let i = 0; i < pool.drumHits; i++) if (decision.inAnswer[i]) answered = true;
    const { maxLagSamples: centre, correlation } = analyser.widest;
    for (let i = 0; i < pool.drumHits; i++) {
      if (answered && !decision.inAnswer[i]) continue;
      const base = (pool.drumSlots[i] as number) * correlation.curveLength + centre;
      for (let k = -this.half; k <= this.half; k++) {
        this.mean[k + this.half] =
          (this.mean[k + this.half] as number) + (correlation.curves[base + k * this.step] as number);
      }
      this.meanHits++;
    }
    if (this.meanHits > 0) {
      for (let k = 0; k < this.curvePoints; k++) this.mean[k] = (this.mean[k] as number) / this.meanHits;
    }
  }

  /** Real-time safe: yes. @param out length frameLength(curvePoints) */
  write(out: Float64Array, frames: number, startFrame: number): void {
    const { store, heard, gaps } = this.from;
    const v = this.verdict;
    if (!this.held || this.rejudge)
      judge(v, this.from, frames - startFrame, gaps.runs.zero, gaps.runs.equal, this.sampleRate, this.tuning);
    this.rejudge = false;
    const flip = this.invertB ? -1 : 1;
    const { head } = SLOT;
    out[head.version] = FRAME_VERSION;
    // the worklet's own
    out[head.stamp] = 0;
    out[head.dropping] = 0;
    out[head.sampleRate] = this.sampleRate;
    out[head.streamSeconds] = (frames - startFrame) / this.sampleRate;
    out[head.state] = v.state;
    out[head.reason] = v.reason;
    out[head.gap] = v.gap || gaps.isFresh(frames) ? 1 : 0;
    out[head.bitIdentical] = v.bitIdentical ? 1 : 0;
    out[head.hits] = store.count;
    out[head.hitsNeeded] = this.tuning.delay.hitsNeeded;
    out[head.drum] = heard.shownAt < 0 ? Number.NaN : (heard.sorter.id[heard.shownAt] as number);
    out[head.drumChosen] = heard.chosen ? 1 : 0;
    this.writeInputs(out);
    this.writeGauge(out);
    this.writeSum(out, flip);
    this.writeTrace(out, flip);
    this.writeHits(out, startFrame, flip);
    this.writeDrums(out, flip);
    out[head.curveStep] = this.step;
    out[head.curveHits] = this.meanHits;
    for (let k = 0; k < this.curvePoints; k++) out[AT.curve + k] = (this.mean[k] as number) * flip;
  }

  private writeInputs(out: Float64Array): void {
    const { levelA: a, levelB: b, offset } = this.from;
    const { head } = SLOT;
    out[head.offsetSamples] = offset.offsetSamples;
    a.write(out, head.aPeakDbfs, head.aRmsDbfs, head.aDc);
    out[head.aClips] = a.clips;
    out[head.aSilent] = a.silent ? 1 : 0;
    b.write(out, head.bPeakDbfs, head.bRmsDbfs, head.bDc);
    out[head.bClips] = b.clips;
    out[head.bSilent] = b.silent ? 1 : 0;
    const { bands } = this.from;
    out[head.noiseWindows] = bands.windows;
    out[head.noiseZeroSeconds] = bands.longestZero / this.sampleRate;
    out.set(bands.a, head.noiseA);
    out.set(bands.b, head.noiseB);
    out.set(bands.product, head.noiseProduct);
    out.set(bands.floorA, head.noiseFloorA);
    out.set(bands.floorB, head.noiseFloorB);
  }

  /** The inputs' own polarity: an invert in the reading is not theirs. */
  private writeGauge(out: Float64Array): void {
    const { gauge } = this.from;
    const { head } = SLOT;
    out[head.gauge] = gauge ? 1 : 0;
    if (!gauge) return;
    out[head.gaugeHits] = gauge.hits;
    out[head.gaugeAgreeing] = gauge.says.members;
    out[head.gaugeSamples] = gauge.says.delay;
    out[head.gaugeScatter] = gauge.says.spread;
    out[head.gaugePolarity] = gauge.says.members > 0 ? gauge.says.sign : Number.NaN;
    out[head.gaugeHeight] = gauge.height;
  }

  /** The sum over the shown drum's hits. */
  private writeSum(out: Float64Array, flip: number): void {
    const { sum } = this.from.heard.shown;
    const { head, band } = SLOT;
    out[head.correlation] = sum.correlation * flip;
    out[head.levelDifferenceDb] = sum.levelDifferenceDb;
    const f = sum.fuller;
    const other = f === FULLER_CODE['as-is'] ? FULLER_CODE.inverted : FULLER_CODE['as-is'];
    if (this.invertB && f !== FULLER_CODE.either && !Number.isNaN(f)) out[head.fuller] = other;
    else out[head.fuller] = f;
    out[head.fullerDb] = sum.fullerDb;
    out[head.fullerLowHz] = sum.fullerLowHz;
    out[head.fullerHighHz] = sum.fullerHighHz;
    for (let k = 0; k < sum.lowOctaves.length; k++) out[head.lowOctaves + k] = (sum.lowOctaves[k] as number) * flip;
    for (let b = 0; b < BAND_COUNT; b++) {
      const at = AT.band(b);
      const s = b * BAND_LENGTH;
      out[at + band.correlation] = (sum.bands[s + band.correlation] as number) * flip;
      out[at + band.coherence] = sum.bands[s + band.coherence] as number;
      out[at + band.sumDb] = sum.bands[s + (this.invertB ? band.sumInvertedDb : band.sumDb)] as number;
      out[at + band.sumInvertedDb] = sum.bands[s + (this.invertB ? band.sumDb : band.sumInvertedDb)] as number;
      this.putAsRecorded(out, at + band.sumAsRecordedDb, s);
      out[at + band.levelDifferenceDb] = sum.bands[s + band.levelDifferenceDb] as number;
    }
    for (let n = 0; n < NEAR_BANDS; n++) out[head.sumNow + n] = (sum.near.now[n] as number) * flip;
    out[head.nearCentreSamples] = sum.near.centre;
    out[head.nearStepSamples] = nearStep(this.sampleRate);
    for (let i = 0; i < NEAR_BANDS * NEAR_POINTS; i++) out[AT.near + i] = (sum.near.values[i] as number) * flip;
    for (let i = 0; i < HERE_LENGTH; i++) out[AT.here + i] = (sum.near.here[i] as number) * flip;
    for (let i = 0; i < SPECTRUM_POINTS; i++) {
      out[AT.re + i] = (sum.re[i] as number) * flip;
      out[AT.im + i] = (sum.im[i] as number) * flip;
      out[AT.coherence + i] = sum.coherence[i] as number;
    }
  }

  private writeTrace(out: Float64Array, flip: number): void {
    const { head } = SLOT;
    out[head.traceSeconds] = out[head.streamSeconds] as number;
    this.from.trace.write(out, head.traceBroadband, head.traceBands, flip);
  }

  /** Level of A+B as recorded: with B inverted the cross term changes its sign. */
  private putAsRecorded(out: Float64Array, at: number, s: number): void {
    const sum = this.from.heard.shown.sum.bands[s + SLOT.band.sumAsRecordedDb] as number;
    if (this.invertB) out[at] = 10 * Math.log10(Math.max(2 - 10 ** (sum / 10), 1e-12));
    else out[at] = sum;
  }

  private writeHits(out: Float64Array, startFrame: number, flip: number): void {
    const { store, heard } = this.from;
    const { hit } = SLOT;
    const { told } = this;
    told.choose(store, heard.shownAt);
    for (let i = 0; i < told.count; i++) {
      const s = told.slots[i] as number;
      const at = AT.hit(i);
      const d = store.drum[s] as number;
      // each hit says what its drum's witness says of it
      const method = d < 0 ? METHOD['first-arrival'] : (heard.each[d] as DrumSource).decision.method;
      const wave = method === METHOD.waveform;
      const low = method === METHOD['low-band'];
      const likely = method === METHOD.likeliest && !Number.isNaN(store.likelyDelay[s] as number);
      const delays = likely ? store.likelyDelay : wave ? store.waveDelay : low ? store.lowDelay : store.pickDelay;
      const signs = wave ? store.waveSign : low ? store.lowSign : store.pickSign;
      out[at + hit.serial] = store.serial[s] as number;
      out[at + hit.timeSeconds] = ((store.anchor[s] as number) - startFrame) / this.sampleRate;
      out[at + hit.delaySamples] = delays[s] as number;
      if (Number.isNaN(delays[s] as number)) out[at + hit.polarity] = Number.NaN;
      else
        out[at + hit.polarity] = (likely ? (heard.each[d] as DrumSource).decision.sign : (signs[s] as number)) * flip;
      out[at + hit.fate] = Math.min(FATES.length - 1, store.fate[s] as number);
      out[at + hit.levelADbfs] = store.levelA[s] as number;
      out[at + hit.levelBDbfs] = store.levelB[s] as number;
      out[at + hit.drum] = d < 0 ? Number.NaN : (heard.sorter.id[d] as number);
      if (store.hasSum[s]) {
        putRatio(out, at + hit.correlation, store.product, store.energyA, store.energyB, s, flip);
        for (let b = 0; b < BAND_COUNT; b++) {
          putRatio(
            out,
            at + hit.bandCorrelation + b,
            store.bandProduct,
            store.bandA,
            store.bandB,
            s * BAND_COUNT + b,
            flip,
          );
        }
      } else {
        out[at + hit.correlation] = Number.NaN;
        out.fill(Number.NaN, at + hit.bandCorrelation, at + hit.bandCorrelation + BAND_COUNT);
      }
    }
    out[SLOT.head.hitCount] = told.count;
  }

  /** Puts the drums in order of loudness in A; the one that is shown is always among those kept. @returns how many */
  private orderDrums(): number {
    const { heard } = this.from;
    const { sorter } = heard;
    const { order } = this;
    let n = 0;
    let shownIn = -1;
    for (let d = 0; d < DRUM_SLOTS; d++) {
      if (sorter.id[d] === 0) continue;
      let at = n++;
      while (at > 0 && sorter.levelA(order[at - 1] as number) < sorter.levelA(d)) {
        order[at] = order[at - 1] as number;
        at--;
      }
      order[at] = d;
    }
    for (let i = 0; i < n; i++) if (order[i] === heard.shownAt) shownIn = i;
    n = Math.min(n, DRUMS_KEPT);
    if (shownIn >= n) order[n - 1] = heard.shownAt;
    return n;
  }

  private writeDrums(out: Float64Array, flip: number): void {
    const { heard } = this.from;
    const { drum } = SLOT;
    const n = this.orderDrums();
    const v = this.drumVerdict;
    for (let i = 0; i < n; i++) {
      const d = this.order[i] as number;
      const { pool, decision } = heard.each[d] as DrumSource;
      judgeDrum(v, decision, heard.length, this.tuning, heard.sorter.parted(d));
      const at = AT.drum(i);
      out[at + drum.id] = heard.sorter.id[d] as number;
      out[at + drum.hits] = heard.sorter.hits[d] as number;
      out[at + drum.hitsPooled] = decision.drumHits;
      out[at + drum.hitsUsed] = decision.members;
      out[at + drum.agreement] = decision.agreement;
      out[at + drum.state] = v.state;
      out[at + drum.reason] = v.reason;
      if (v.measured || v.following) out[at + drum.delaySamples] = decision.delay;
      else out[at + drum.delaySamples] = Number.NaN;
      if (v.measured) {
        out[at + drum.polarity] = decision.sign * flip;
        out[at + drum.spreadSamples] = decision.spread;
        out[at + drum.uncertaintySamples] = decision.uncertainty;
        out[at + drum.method] = decision.method;
      } else {
        out[at + drum.polarity] = Number.NaN;
        out[at + drum.spreadSamples] = Number.NaN;
        out[at + drum.uncertaintySamples] = Number.NaN;
        out[at + drum.method] = Number.NaN;
      }
      out[at + drum.levelADbfs] = pool.levelADbfs;
      out[at + drum.levelBDbfs] = pool.levelBDbfs;
      out[at + drum.centreHz] = heard.sorter.centreHz[d] as number;
    }
    out[SLOT.head.drumCount] = n;
  }
}
