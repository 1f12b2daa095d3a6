/** The kept hits' waveforms round the arrival, both channels, as the picks see them (first-order high-pass at 100 Hz). */

import { peakOf } from '../signal/peak';
import type { Ring } from '../signal/ring';
import { room32 } from '../signal/room';
import { HIT, type WavesTuning } from '../tuning/hitTuning';
import { STORED_HITS } from './hitStore';

export class HitWaves {
  /** samples kept ahead of the trigger: sample `before` of a wave is the trigger's frame */
  readonly before: number;
  /** samples of a wave: 16 ms before the trigger to the reach + 6 ms after it */
  readonly length: number;
  /** slot after slot: the wave of a slot begins at slot · length; full scale is 1 */
  readonly a: Float32Array;
  readonly b: Float32Array;
  /** of each slot: largest |sample| of the quiet start, and of what follows */
  readonly noiseA = new Float64Array(STORED_HITS);
  readonly noiseB = new Float64Array(STORED_HITS);
  readonly peakA = new Float64Array(STORED_HITS);
  readonly peakB = new Float64Array(STORED_HITS);
  private readonly x: Float64Array;
  /** samples of the quiet start */
  readonly quiet: number;
  /** absolute frame number of a slot's first sample; NaN: nothing kept */
  readonly from = new Float64Array(STORED_HITS).fill(Number.NaN);

  /** @param ringA @param ringB the pick rings */
  constructor(
    sampleRate: number,
    maxLagMs: number,
    private readonly ringA: Ring,
    private readonly ringB: Ring,
    tuning: WavesTuning = HIT.waves,
  ) {
    this.before = Math.round(tuning.beforeSeconds * sampleRate);
    this.quiet = Math.round(tuning.quietSeconds * sampleRate);
    this.length = this.before + Math.round((maxLagMs / 1000 + tuning.afterSeconds) * sampleRate);
    this.x = new Float64Array(this.length);
    this.a = room32(STORED_HITS * this.length);
    this.b = room32(STORED_HITS * this.length);
  }

  /** Keep the hit at `trigger` once its `length − before` frames have come in. Real-time safe: yes. */
  keep(slot: number, trigger: number): void {
    const from = trigger - this.before;
    const at = slot * this.length;
    this.from[slot] = from;
    const { x, length } = this;
    this.ringA.copy(from, x, length);
    for (let k = 0; k < length; k++) this.a[at + k] = x[k] as number;
    this.ringB.copy(from, x, length);
    for (let k = 0; k < length; k++) this.b[at + k] = x[k] as number;
    this.noiseA[slot] = peakOf(this.a, at, at + this.quiet);
    this.noiseB[slot] = peakOf(this.b, at, at + this.quiet);
    this.peakA[slot] = peakOf(this.a, at + this.quiet, at + this.length);
    this.peakB[slot] = peakOf(this.b, at + this.quiet, at + this.length);
  }

  /** Real-time safe: yes. */
  forget(slot: number): void {
    this.from[slot] = Number.NaN;
  }
}
