/**
 * The delay between two stretches of one sound, to a fraction of a sample: GCC over the whole stretch, the window cut
 * again at the found delay, then refined on the spectrum, where an interpolation's bias does not exist
 * (L. Svilainis et al., Measurement 46 (2013) 3950–3958). Reaches the bound of Knapp & Carter (1976): see tests/dsp.
 */
import { Gcc } from '../../../src/dsp/signal/gcc';
import { raisedCosine } from '../../../src/dsp/signal/windows';

export interface DelayOptions {
  sampleRate: number;
  /** band that carries the sound, Hz */
  lowHz: number;
  highHz: number;
  /** 0: plain, best for a flat spectrum · 1: PHAT */
  beta: number;
  /** largest |delay| looked for, samples */
  maxLagSamples: number;
}

export interface DelayEstimate {
  /** positive: B later */
  delaySamples: number;
  /** +1 same polarity, −1 inverted */
  sign: number;
  /** height of the whitened peak, 0–1 */
  height: number;
}

/** share of the stretch that fades in, and out */
const FADE_SHARE = 0.04;
const RECUTS = 3;

export class StretchDelay {
  private readonly gcc: Gcc;
  private readonly length: number;

  /** @param length samples of the stretch */
  constructor(
    length: number,
    private readonly options: DelayOptions,
  ) {
    this.length = length;
    const size = 2 ** Math.ceil(Math.log2(length + options.maxLagSamples + 1));
    this.gcc = new Gcc(options.sampleRate, size, options);
  }

  /**
   * Delay of B against A, for the stretch of A that begins at `start`. Samples of B beyond its ends count as 0.
   * Real-time safe: no (allocates its result).
   */
  estimate(a: ArrayLike<number>, b: ArrayLike<number>, start: number): DelayEstimate {
    const gcc = this.gcc;
    const m = this.options.maxLagSamples;
    this.cut(a, b, start, 0, 0);
    gcc.forward();
    gcc.correlate();
    let at = 0;
    for (let i = 0; i < gcc.curve.length; i++)
      if (Math.abs(gcc.curve[i] as number) > Math.abs(gcc.curve[at] as number)) at = i;
    const height = Math.abs(gcc.curve[at] as number);
    const sign = (gcc.curve[at] as number) >= 0 ? 1 : -1;
    let delay = at - m;
    for (let i = 0; i < RECUTS; i++) {
      const whole = Math.round(delay);
      // the window moves with the sound to the fraction, so both stretches hold the same of it
      this.cut(a, b, start, whole, delay - whole);
      gcc.forward();
      delay = whole + gcc.refine(delay - whole, sign);
    }
    return { delaySamples: delay, sign, height };
  }

  private cut(a: ArrayLike<number>, b: ArrayLike<number>, start: number, whole: number, fraction: number): void {
    const { frameA, frameB } = this.gcc;
    frameA.fill(0);
    frameB.fill(0);
    for (let i = 0; i < this.length; i++) {
      frameA[i] = (a[start + i] ?? 0) * this.window(i);
      frameB[i] = (b[start + whole + i] ?? 0) * this.window(i - fraction);
    }
  }

  private window(i: number): number {
    const edge = Math.min(i + 0.5, this.length - i - 0.5) / (FADE_SHARE * this.length);
    return raisedCosine(edge, 1);
  }
}

/**
 * The Cramér–Rao bound on the delay's standard deviation, s, for a flat band and `coherence` γ² throughout:
 * σ² = 3(1−C) / [8π²·T·C·(f2³−f1³)] (the integral of Knapp & Carter, IEEE Trans. ASSP 24 (1976)
 * 320–327, over a flat band; tests/reference/figures.py integrates it).
 */
export function delayBoundSeconds(lowHz: number, highHz: number, seconds: number, coherence: number): number {
  return Math.sqrt((3 * (1 - coherence)) / (8 * Math.PI ** 2 * seconds * coherence * (highHz ** 3 - lowHz ** 3)));
}
