/**
 * Takes a fixed offset between two inputs out: converters of different models have different group delays (common
 * practice, no source). The earlier channel is delayed, by whole samples exactly; a fraction is shared, half a fraction
 * sooner in one channel and half later in the other: both filters are mirror images with the same magnitude, so that
 * neither the sum nor a first push is coloured on one side only. Good to 0.005 samples up to half of Nyquist, to 0.033
 * (and −0.35 dB, in both) at 0.8 of it: see tests/dsp.
 * Windowed sinc (Kaiser, β 6), after T. I. Laakso et al., "Splitting the unit delay", IEEE Signal Processing Magazine 13(1) (1996) 30–60.
 */
import { MAX_OFFSET_SECONDS } from '../../reading/limits';

/** reaches 6 samples ahead: 0.14 ms at 44.1 kHz, inside what a first arrival's quality passes over */
const TAPS = 13;
const CENTRE = 6;
const KAISER_BETA = 6;

/** Zeroth-order modified Bessel function (series). */
function bessel(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; k < 40; k++) {
    term *= (x / 2 / k) ** 2;
    sum += term;
  }
  return sum;
}

/** One channel's delay line. */
class Line {
  private readonly data: Float64Array;
  private readonly mask: number;
  private at = 0;
  /** whole samples, then the filter (when there is one) */
  whole = 0;
  readonly taps = new Float64Array(TAPS);

  constructor(atLeast: number) {
    this.data = new Float64Array(2 ** Math.ceil(Math.log2(atLeast)));
    this.mask = this.data.length - 1;
  }

  run(x: Float64Array, y: Float64Array, n: number, filtered: boolean): void {
    const { data, mask, taps, whole } = this;
    let at = this.at;
    for (let i = 0; i < n; i++) {
      data[at & mask] = x[i] as number;
      const from = at - whole;
      if (filtered) {
        let sum = 0;
        for (let k = 0; k < TAPS; k++) sum += (taps[k] as number) * (data[(from - k) & mask] as number);
        y[i] = sum;
      } else y[i] = data[from & mask] as number;
      at++;
    }
    this.at = at & mask;
  }

  /** @param fraction −0.25…0.25 samples later than the filter's centre */
  shape(fraction: number): void {
    let sum = 0;
    for (let k = 0; k < TAPS; k++) {
      const t = k - CENTRE - fraction;
      const edge = 1 - (t / (TAPS / 2)) ** 2;
      const sinc = t === 0 ? 1 : Math.sin(Math.PI * t) / (Math.PI * t);
      const tap = sinc * bessel(KAISER_BETA * Math.sqrt(Math.max(0, edge)));
      this.taps[k] = tap;
      sum += tap;
    }
    for (let k = 0; k < TAPS; k++) this.taps[k] = (this.taps[k] as number) / sum;
  }
}

/** Aligns A and B by a fixed offset. Everything is allocated in the constructor. */
export class OffsetLine {
  /** what is taken out, samples: positive when B's path is the later one */
  offsetSamples = 0;
  readonly maxSamples: number;
  private fraction = false;
  private readonly a: Line;
  private readonly b: Line;

  constructor(sampleRate: number) {
    this.maxSamples = MAX_OFFSET_SECONDS * sampleRate;
    this.a = new Line(Math.ceil(this.maxSamples) + TAPS + 1);
    this.b = new Line(Math.ceil(this.maxSamples) + TAPS + 1);
  }

  /**
   * What is to be taken out from now on. Real-time safe: yes, unless it throws.
   * @param samples delay of B's path against A's
   * @throws RangeError beyond ±20 ms, or when it is no number
   */
  set(samples: number): void {
    if (!(Math.abs(samples) <= this.maxSamples))
      throw new RangeError(`offsetSamples must be within ±${this.maxSamples} but was ${samples}`);
    const whole = Math.round(samples);
    const rest = samples - whole;
    this.offsetSamples = samples;
    this.fraction = rest !== 0;
    this.a.whole = Math.max(0, whole);
    this.b.whole = Math.max(0, -whole);
    this.a.shape(rest / 2);
    this.b.shape(-rest / 2);
  }

  /** How late the aligned channels are, samples to the nearest. */
  get lateA(): number {
    return this.a.whole + (this.fraction ? CENTRE : 0);
  }
  get lateB(): number {
    return this.b.whole + (this.fraction ? CENTRE : 0);
  }

  /** n samples of each channel, aligned into outA and outB; with no offset bit for bit as they are. Real-time safe: yes. */
  run(a: Float64Array, b: Float64Array, outA: Float64Array, outB: Float64Array, n: number): void {
    this.a.run(a, outA, n, this.fraction);
    this.b.run(b, outB, n, this.fraction);
  }
}
