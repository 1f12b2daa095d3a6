/**
 * The single hit's spectra and its correlation (GCC): `load` makes the spectra (one transform), `correlate` the curve (one
 * transform) and what it says.
 */
import type { Rings } from '../input/inputs';
import { Gcc, parabolicOffset } from '../signal/gcc';
import { room32 } from '../signal/room';
import { fadeWindow } from '../signal/windows';
import { type CorrelationTuning, HIT } from '../tuning/hitTuning';
import { STORED_HITS } from './hitStore';

export class HitCorrelation {
  /** spectra of the hit loaded last */
  readonly gcc: Gcc;
  /** frames after the trigger which `load` looks at */
  readonly lookAheadFrames: number;
  /** curves of the kept hits, slot after slot, and samples of each */
  readonly curves: Float32Array;
  readonly curveLength: number;
  /** of the hit correlated last: the peak's lag, samples (NaN: none), its sign, the highest opposite peak over it (1: ambiguous) */
  delay = Number.NaN;
  sign = 0;
  rival = 1;
  private readonly before: number;
  private readonly length: number;
  private readonly window: Float64Array;

  constructor(
    sampleRate: number,
    maxLagSamples: number,
    private readonly rings: Rings,
    tuning: CorrelationTuning = HIT.correlation,
  ) {
    this.before = Math.round(tuning.beforeSeconds * sampleRate);
    this.length = this.before + maxLagSamples + Math.round(tuning.afterLagSeconds * sampleRate);
    this.lookAheadFrames = this.length - this.before;
    const size = 2 ** Math.ceil(Math.log2(this.length + maxLagSamples));
    const { lowHz, highHz, beta } = tuning;
    this.gcc = new Gcc(sampleRate, size, { lowHz, highHz, beta, maxLagSamples });
    this.window = fadeWindow(this.length, {
      fadeIn: Math.round(tuning.fadeInSeconds * sampleRate),
      fadeOut: Math.round(tuning.fadeOutShare * this.length),
      at: 0,
    });
    this.curveLength = this.gcc.curve.length;
    this.curves = room32(STORED_HITS * this.curveLength);
  }

  /** Spectra of both channels round `trigger`. One transform. Real-time safe: yes. */
  load(trigger: number): void {
    const { gcc, rings } = this;
    gcc.frameA.fill(0);
    gcc.frameB.fill(0);
    const from = trigger - this.before;
    rings.waveA.copy(from, gcc.frameA, this.length);
    rings.waveB.copy(from, gcc.frameB, this.length);
    for (let i = 0; i < this.length; i++) {
      const w = this.window[i] as number;
      gcc.frameA[i] = w * (gcc.frameA[i] as number);
      gcc.frameB[i] = w * (gcc.frameB[i] as number);
    }
    gcc.forward();
  }

  /** The loaded hit's curve, its highest peak and the highest one of opposite sign. One transform. Real-time safe: yes. @param slot where the curve is kept */
  correlate(slot: number): void {
    const g = this.gcc;
    g.correlate();
    const c = g.curve;
    const n = c.length;
    let up = 0;
    let down = 0;
    const base = slot * n;
    for (let i = 0; i < n; i++) {
      const v = c[i] as number;
      this.curves[base + i] = v;
      if (v > (c[up] as number)) up = i;
      if (v < (c[down] as number)) down = i;
    }
    const high = c[up] as number;
    const low = -(c[down] as number);
    const sign = high >= low ? 1 : -1;
    const at = sign > 0 ? up : down;
    this.delay = Number.NaN;
    this.sign = 0;
    this.rival = 1;
    if (at > 0 && at < n - 1 && Math.max(high, low) > 0) {
      const offset = parabolicOffset(c[at - 1] as number, c[at] as number, c[at + 1] as number);
      this.delay = at - g.maxLagSamples + offset;
      this.sign = sign;
      this.rival = Math.min(high, low) / Math.max(high, low);
    }
  }
}
