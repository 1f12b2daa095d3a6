/**
 * How well two tracks fit at each delay, over all hits of a drum at once: the mean of their whitened cross-spectra, turned back into time.
 * One hit of a cymbal has another noise in each track; what they share stands at one delay in every hit, and adds up.
 */
import { transformOf } from '../../dsp/signal/transforms';

/** what is looked at of a track: so long before it is expected to hear the drum, and after it, s */
export const BEFORE_SECONDS = 0.0015;
const FADE_IN_SECONDS = 0.0007;
/** the end fades out over that share */
const FADE_OUT_SHARE = 0.3;
/** share of whitening, as in the engine's second witness (C. H. Knapp, G. C. Carter, IEEE Trans. ASSP 24 (1976) 320: 1 is PHAT) */
const WHITENING = 0.8;
const LOWEST_HZ = 100;
const HIGHEST_HZ = 9000;

/** A track's attacks. */
export interface Attacks {
  /** of each hit, bin by bin, re and im */
  spectra: Float64Array[];
  /** frames by which what was looked at begins after what was looked at in a track with 0 */
  from: number;
}

export class Curves {
  private readonly size: number;
  private readonly first: number;
  private readonly end: number;

  /** @param mostFrames frames looked at of a track, at most */
  constructor(
    private readonly sampleRate: number,
    mostFrames: number,
  ) {
    this.size = 2 ** Math.ceil(Math.log2(2 * mostFrames));
    this.first = Math.ceil((LOWEST_HZ * this.size) / sampleRate);
    this.end = Math.min(this.size / 2, Math.floor((HIGHEST_HZ * this.size) / sampleRate));
  }

  /**
   * @param pieces of one track, @param begins frame of each at which its drum's own track begins
   * @param laterFrames by which this track is expected to hear it later
   */
  attacks(pieces: readonly Float32Array[], begins: readonly number[], laterFrames: number, frames: number): Attacks {
    const { sampleRate, size, first, end } = this;
    const fft = transformOf(size);
    const input = new Float64Array(size);
    const output = fft.createComplexArray();
    const from = Math.round(laterFrames) - Math.round(BEFORE_SECONDS * sampleRate);
    const fadeIn = FADE_IN_SECONDS * sampleRate;
    const fadeOut = FADE_OUT_SHARE * frames;
    const spectra = pieces.map((piece, h) => {
      input.fill(0);
      const at = Math.round(begins[h] as number) + from;
      for (let i = 0; i < frames; i++)
        input[i] = (piece[at + i] ?? 0) * Math.min(1, i / fadeIn, (frames - i) / fadeOut);
      fft.realTransform(output, input);
      return Float64Array.from({ length: 2 * (end - first) }, (_, i) => output[2 * first + i] as number);
    });
    return { spectra, from };
  }

  /** @returns how well b fits a where b hears it so many frames later, −1…1; a maximum's sign is the product of signs */
  between(a: Attacks, b: Attacks): Curve {
    const { size, first, end } = this;
    const sum = new Float64Array(2 * (end - first));
    const one = new Float64Array(sum.length);
    a.spectra.forEach((x, h) => {
      const y = b.spectra[h] as Float64Array;
      let all = 1e-30;
      for (let i = 0; i < x.length; i += 2) {
        const [xr, xi, yr, yi] = [x[i], x[i + 1], y[i], y[i + 1]] as [number, number, number, number];
        const re = xr * yr + xi * yi;
        const im = xr * yi - xi * yr;
        const size = Math.hypot(re, im) + 1e-30;
        const weight = size ** -WHITENING;
        one[i] = re * weight;
        one[i + 1] = im * weight;
        all += size * weight;
      }
      // each hit counts alike
      for (let i = 0; i < sum.length; i++) sum[i] = (sum[i] as number) + (one[i] as number) / all;
    });
    const fft = transformOf(size);
    const input = fft.createComplexArray();
    const output = fft.createComplexArray();
    input.fill(0);
    for (let k = first; k < end; k++) {
      const [re, im] = [sum[2 * (k - first)], sum[2 * (k - first) + 1]] as [number, number];
      input[2 * k] = re;
      input[2 * k + 1] = im;
      input[2 * (size - k)] = re;
      input[2 * (size - k) + 1] = -im;
    }
    fft.inverseTransform(output, input);
    const gain = size / (2 * a.spectra.length);
    const values = Float64Array.from({ length: size }, (_, i) => gain * (output[2 * i] as number));
    return { values, offset: b.from - a.from };
  }
}

export interface Curve {
  /** circular: at i for a delay of offset + i frames */
  values: Float64Array;
  offset: number;
}

/** Between samples by a straight line; 0 beyond what was looked at. */
export function valueAt({ values, offset }: Curve, delay: number): number {
  const at = delay - offset;
  const half = values.length / 2;
  if (!(at > -half && at < half - 1)) return 0;
  const whole = Math.floor(at);
  const part = at - whole;
  const i = whole & (values.length - 1);
  const next = (whole + 1) & (values.length - 1);
  return (1 - part) * (values[i] as number) + part * (values[next] as number);
}
