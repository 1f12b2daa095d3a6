/** A loop of sound at the model's inner rate: what runs past the end comes in at the beginning. */
import { type Biquad, runBiquad } from './biquad';

/** Output rate, Hz, and how many times finer the model works: pulses of 0.15 ms and arrivals between samples need it. */
export const SAMPLE_RATE = 44100;
export const OVERSAMPLING = 4;
export const INNER_RATE = SAMPLE_RATE * OVERSAMPLING;

export class Loop {
  readonly samples: Float64Array;

  /** @param length inner samples */
  constructor(length: number) {
    this.samples = new Float64Array(length);
  }

  /** Adds to one inner sample; any index ≥ 0, taken round the loop. */
  add(index: number, value: number): void {
    // the modulo alone would cost more than all the rest
    const n = this.samples.length;
    this.samples[index < n ? index : index % n] += value;
  }

  /** Adds another loop of the same length, late by whole inner samples (2 mm of path each) and scaled. */
  addDelayed(other: Loop, delaySeconds: number, gain: number): void {
    const n = this.samples.length;
    const shift = Math.round(delaySeconds * INNER_RATE) % n;
    for (let i = 0; i < shift; i++) this.samples[i] += gain * other.samples[n - shift + i];
    for (let i = shift; i < n; i++) this.samples[i] += gain * other.samples[i - shift];
  }

  /** Filters in place. The first round only fills the filters' memory, so that the loop has no beginning. */
  filter(biquads: readonly Biquad[]): void {
    for (const biquad of biquads) {
      const state: [number, number] = [0, 0];
      runBiquad(biquad, this.samples, null, state);
      runBiquad(biquad, this.samples, this.samples, state);
    }
  }

  copy(): Loop {
    const twin = new Loop(this.samples.length);
    twin.samples.set(this.samples);
    return twin;
  }
}
