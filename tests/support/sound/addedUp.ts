/**
 * What A+B really comes to in a band over the hits of a recording, once one of the two is delayed or turned over. Shares
 * nothing with the program's own sums: the recording is really delayed, each hit cut out of it, and the two added up.
 */
import FFT from 'fft.js';

export interface Band {
  lowHz: number;
  highHz: number;
}

/** What is done to the pair: positive delay, ms: A is delayed; negative: B. */
export interface Done {
  invertB: boolean;
  delayMs: number;
}

/** of a hit, s: the stretch that counts, with what fades in and out of it */
const FROM = -0.005;
const TO = 0.2;
const FADE_IN = 0.005;
const FADE_OUT = 0.02;
/** run-in on either side for a delay, s */
const MARGIN = 0.05;

export class AddedUp {
  private readonly size: number;
  private readonly fft: FFT;
  /** of each hit with its run-in, not faded */
  private readonly spectra: [a: Float64Array, b: Float64Array][];
  /** the hits as they stand, cut and faded: their spectra */
  private readonly present: Record<'a' | 'b', Float64Array[]>;

  /** @param times of the hits, s */
  constructor(
    a: Float32Array,
    b: Float32Array,
    private readonly sampleRate: number,
    times: readonly number[],
  ) {
    const frames = Math.round((TO - FROM + 2 * MARGIN) * sampleRate);
    this.size = 2 ** Math.ceil(Math.log2(frames));
    this.fft = new FFT(this.size);
    this.spectra = times.map((time) => {
      const from = Math.round((time + FROM - MARGIN) * sampleRate);
      return [this.spectrum(a, from, frames), this.spectrum(b, from, frames)];
    });
    this.present = { a: this.delayed('a', 0), b: this.delayed('b', 0) };
  }

  /**
   * Level of A+B re the power sum of the two in each band, A and B at equal level there over all the hits as they stand, dB.
   */
  levelsDb(bands: readonly Band[], { invertB, delayMs }: Done): number[] {
    const a = delayMs > 0 ? this.delayed('a', delayMs) : this.present.a;
    const b = delayMs < 0 ? this.delayed('b', -delayMs) : this.present.b;
    return this.sumsDb(bands, a, b, invertB ? -1 : 1);
  }

  /** The same with B alone made later (negative: earlier) and then trimmed from equal level, dB. */
  withBLaterDb(bands: readonly Band[], done: Done & { trimDb: number }): number[] {
    const b = done.delayMs === 0 ? this.present.b : this.delayed('b', done.delayMs);
    return this.sumsDb(bands, this.present.a, b, (done.invertB ? -1 : 1) * 10 ** (done.trimDb / 20));
  }

  /** @param factorB of B's amplitude, from equal level on */
  private sumsDb(bands: readonly Band[], a: Float64Array[], b: Float64Array[], factorB: number): number[] {
    return bands.map((band) => {
      const gainB = factorB * Math.sqrt(this.power(this.present.a, band) / this.power(this.present.b, band));
      const sums = a.map((hit, i) => hit.map((x, k) => x + gainB * ((b[i] as Float64Array)[k] as number)));
      const alone = this.power(a, band) + gainB * gainB * this.power(b, band);
      return 10 * Math.log10(this.power(sums, band) / alone);
    });
  }

  /**
   * Coherence of the band over the hits, each bin by the energy that the two have there:
   * Σ w(f)·|γ(f)|² / Σ w(f), w = √(ΣA²·ΣB²), |γ|² = |Σ A*B|² / (ΣA²·ΣB²), less what n unrelated stretches give (1/n).
   */
  coherence(band: Band): number {
    const n = this.spectra.length;
    let total = 0;
    let weight = 0;
    for (const [k, share] of this.bins(band)) {
      let [re, im, aa, bb] = [0, 0, 0, 0];
      for (const [i, a] of this.present.a.entries()) {
        const b = this.present.b[i] as Float64Array;
        const [p, q, r, s] = [a[2 * k], a[2 * k + 1], b[2 * k], b[2 * k + 1]] as [number, number, number, number];
        re += p * r + q * s;
        im += p * s - q * r;
        aa += p * p + q * q;
        bb += r * r + s * s;
      }
      if (!(aa * bb > 0)) continue;
      const w = share * Math.sqrt(aa * bb);
      total += w * Math.max(0, ((re * re + im * im) / (aa * bb) - 1 / n) / (1 - 1 / n));
      weight += w;
    }
    return weight > 0 ? total / weight : 0;
  }

  private spectrum(x: Float32Array, from: number, frames: number): Float64Array {
    const z = new Float64Array(2 * this.size);
    for (let i = 0; i < frames; i++) z[2 * i] = x[from + i] ?? 0;
    const out = new Float64Array(2 * this.size);
    this.fft.transform(out, z);
    return out;
  }

  /** Energy of the hits in the band. */
  private power(hits: readonly Float64Array[], band: Band): number {
    let sum = 0;
    for (const [k, share] of this.bins(band))
      for (const hit of hits) sum += share * ((hit[2 * k] as number) ** 2 + (hit[2 * k + 1] as number) ** 2);
    return sum;
  }

  /** A band's bins; one at its edge counts for the share of its width that lies inside: a kick's tone often lies there. */
  private bins({ lowHz, highHz }: Band): [bin: number, share: number][] {
    const [low, high] = [lowHz, highHz].map((hz) => (hz * this.size) / this.sampleRate) as [number, number];
    const list: [number, number][] = [];
    for (let k = Math.round(low); k <= Math.round(high); k++)
      list.push([k, Math.max(0, Math.min(k + 0.5, high) - Math.max(k - 0.5, low))]);
    return list;
  }

  /** One microphone's hits, later by `ms`, then cut out and faded: their spectra. */
  private delayed(which: 'a' | 'b', ms: number): Float64Array[] {
    const { size, sampleRate } = this;
    const samples = (ms / 1000) * sampleRate;
    return this.spectra.map(([a, b]) => {
      const from = which === 'a' ? a : b;
      const turned = new Float64Array(2 * size);
      // bins above 0 alone: twice the real part is the signal
      for (let k = 1; k < size / 2; k++) {
        const angle = (-2 * Math.PI * k * samples) / size;
        const [c, s] = [Math.cos(angle), Math.sin(angle)];
        const [re, im] = [from[2 * k] as number, from[2 * k + 1] as number];
        turned[2 * k] = re * c - im * s;
        turned[2 * k + 1] = re * s + im * c;
      }
      const z = new Float64Array(2 * size);
      this.fft.inverseTransform(z, turned);
      for (let i = 0; i < size; i++) {
        const at = i / sampleRate - MARGIN;
        z[2 * i] = 2 * (z[2 * i] as number) * fade(at / FADE_IN) * fade((TO - FROM - at) / FADE_OUT);
        z[2 * i + 1] = 0;
      }
      this.fft.transform(turned, z);
      return turned;
    });
  }
}

/** 0 below 0, 1 above 1, half a cosine between. */
const fade = (x: number): number => (x <= 0 ? 0 : x >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * x));
