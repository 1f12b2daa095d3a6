/**
 * Do A and B carry a mix of the same channels? A system that passes two of many channels on may add them up. Then every sound
 * is in both at the same instant, in one ratio at all frequencies. Two mics never hear that: a hundredth of a millisecond
 * between them, or their own noise, is enough to tell.
 */
import type { InputNoise, Reading } from '../../reading/reading';
import type { Problem } from '../link';

/** coherence without delay that two mics never reach in every band */
const COHERENCE = 0.9995;
/** dB within which the ratio is one at all frequencies, and stays so */
const RATIO_DB = 0.2;
/** power of a band, full scale 1, in which that can be told: 36 dB over the rounding to 16 bits */
const LEAST_POWER = 10 ** -6.6;
/** bands that must be loud enough */
const LEAST_BANDS = 5;
/** windows of 0.26 s that must say so, with none between them that says otherwise */
const WINDOWS = 6;

const MIX: Problem = {
  code: 'mixed-channels',
  text: 'A and B carry a mix of the same channels; in the system’s sound settings set the interface to two channels, or choose a stereo pair of it, then press “Try again”.',
};

export class MixCheck {
  private seen = -1;
  private ratioDb = 0;
  private agreeing = 0;
  private said = false;

  /** Every reading. @returns the problem, once */
  push({ inputs, gauge }: Reading): Problem | null {
    const { noise, bitIdentical } = inputs;
    if (this.said || noise.windows === this.seen) return null;
    this.seen = noise.windows;
    // one signal twice is told by itself; for the input offset, both are fed the same on purpose
    if (bitIdentical || gauge !== null) {
      this.agreeing = 0;
      return null;
    }
    const ratio = mixRatioDb(noise);
    if (ratio === null) return null;
    const holds = ratio !== 'no-mix' && (this.agreeing === 0 || Math.abs(ratio - this.ratioDb) <= RATIO_DB);
    if (!holds) {
      this.agreeing = 0;
      return null;
    }
    if (this.agreeing++ === 0) this.ratioDb = ratio;
    if (this.agreeing < WINDOWS) return null;
    this.said = true;
    return MIX;
  }
}

/** B against A, dB, where both carry the same. @returns null where it is too quiet to tell */
export function mixRatioDb({ a, b, product }: InputNoise): number | 'no-mix' | null {
  const ratios: number[] = [];
  let sign = 0;
  for (let k = 0; k < a.length; k++) {
    const aa = a[k] as number;
    const bb = b[k] as number;
    const ab = product[k] as number;
    if (Math.min(aa, bb) < LEAST_POWER) continue;
    if (ab * ab < COHERENCE * aa * bb || ab * sign < 0) return 'no-mix';
    sign = ab;
    ratios.push(10 * Math.log10(bb / aa));
  }
  if (ratios.length < LEAST_BANDS) return null;
  return Math.max(...ratios) - Math.min(...ratios) <= RATIO_DB ? median(ratios) : 'no-mix';
}

const median = (values: number[]): number => values.sort((x, y) => x - y)[values.length >> 1] as number;
