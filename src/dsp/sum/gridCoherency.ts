/**
 * Coherency γ of one drum's hits on the logarithmic grid, and how well bands are carried. The hits add up as they were recorded; for the
 * coherence, which is a matter of evidence, each hit counts alike.
 */
import { SPECTRUM_POINTS, SUM_BAND, spectrumHz } from '../../reading/bands';
import type { HitStore } from '../hit/hitStore';
import type { SumTuning } from '../tuning/sumTuning';
import { biasLimit, unbiased } from './coherenceBias';

const points = (): Float64Array => new Float64Array(SPECTRUM_POINTS);
/** widths of the grid's stretches, Hz, where a hit's stretch resolves them */
const WIDTH_HZ = points().map((_, p) => spectrumHz(p) * (2 ** (1 / 24) - 2 ** (-1 / 24)));

export class GridCoherency {
  /** γ where the hits carry it, else NaN */
  readonly re = points().fill(Number.NaN);
  readonly im = points().fill(Number.NaN);
  /** |γ|² without its bias, NaN where there is nothing */
  readonly coherence = points().fill(Number.NaN);
  /** |γ|² as it comes; √(power of A × power of B) of a point's stretch */
  private readonly raw = points();
  private readonly energy = points();
  private hits = 0;
  /** over the hits: cross-spectrum and powers, hits weighted to equal energy, then as they were recorded */
  private readonly evenRe = points();
  private readonly evenIm = points();
  private readonly evenA = points();
  private readonly evenB = points();
  private readonly allRe = points();
  private readonly allIm = points();
  private readonly allA = points();
  private readonly allB = points();
  private readonly sums: readonly Float64Array[];

  /** @param seconds length of a hit's stretch */
  constructor(
    private readonly tuning: SumTuning,
    private readonly seconds: number,
  ) {
    const { evenRe, evenIm, evenA, evenB, allRe, allIm, allA, allB } = this;
    this.sums = [evenRe, evenIm, evenA, evenB, allRe, allIm, allA, allB];
  }

  /** Real-time safe: yes. @param slots the hits, the first `hits` of them */
  evaluate(store: HitStore, slots: Int32Array, hits: number): void {
    this.hits = hits;
    this.addUp(store, slots, hits);
    const { seconds, evenRe, evenIm, evenA, evenB, allRe, allIm, allA, allB } = this;
    const { independent, chance } = this.tuning;
    for (let p = 0; p < SPECTRUM_POINTS; p++) {
      const both = (allA[p] as number) * (allB[p] as number);
      this.energy[p] = Math.sqrt(both);
      const width = Math.max(WIDTH_HZ[p] as number, 1 / seconds);
      const segments = independent * hits * Math.max(1, width * seconds);
      const norm = (evenA[p] as number) * (evenB[p] as number);
      if (!(norm > 1e-24)) {
        this.raw[p] = Number.NaN;
        continue;
      }
      const re = evenRe[p] as number;
      const im = evenIm[p] as number;
      const c = (re * re + im * im) / norm;
      this.raw[p] = c;
      this.coherence[p] = unbiased(c, segments);
      if (c > biasLimit(segments, 1, chance)) {
        const g = 1 / Math.sqrt(both);
        this.re[p] = (allRe[p] as number) * g;
        this.im[p] = (allIm[p] as number) * g;
      }
    }
  }

  /** One hit after the other: its points lie side by side. */
  private addUp(store: HitStore, slots: Int32Array, hits: number): void {
    const { evenRe, evenIm, evenA, evenB, allRe, allIm, allA, allB } = this;
    const { gridRe, gridIm, gridA, gridB } = store;
    for (let k = 0; k < this.sums.length; k++) (this.sums[k] as Float64Array).fill(0);
    for (let i = 0; i < hits; i++) {
      const s = slots[i] as number;
      const from = s * SPECTRUM_POINTS;
      const ea = store.energyA[s] as number;
      const eb = store.energyB[s] as number;
      const w = 1 / Math.sqrt(ea * eb);
      for (let p = 0; p < SPECTRUM_POINTS; p++) {
        const re = gridRe[from + p] as number;
        const im = gridIm[from + p] as number;
        const a = gridA[from + p] as number;
        const b = gridB[from + p] as number;
        evenRe[p] = (evenRe[p] as number) + re * w;
        evenIm[p] = (evenIm[p] as number) + im * w;
        evenA[p] = (evenA[p] as number) + a / ea;
        evenB[p] = (evenB[p] as number) + b / eb;
        allRe[p] = (allRe[p] as number) + re;
        allIm[p] = (allIm[p] as number) + im;
        allA[p] = (allA[p] as number) + a;
        allB[p] = (allB[p] as number) + b;
      }
    }
  }

  /** Mean coherence of the grid points between two frequencies, bias removed; NaN if not clearly above it. Real-time safe: yes. */
  ofBand(lowHz: number, highHz: number): number {
    let sum = 0;
    let weight = 0;
    for (let p = 0; p < SPECTRUM_POINTS; p++) {
      const f = spectrumHz(p);
      if (f < lowHz || f > highHz || Number.isNaN(this.raw[p] as number)) continue;
      // grid points stand for stretches that grow with frequency
      sum += (this.coherence[p] as number) * f;
      weight += f;
    }
    if (weight === 0) return Number.NaN;
    const c = sum / weight;
    const bins = Math.max(1, (highHz - lowHz) * this.seconds);
    const deviation = Math.sqrt((this.hits - 1) / (this.hits * this.hits * (this.hits + 1))) / Math.sqrt(bins);
    const { leastCoherence, deviations } = this.tuning;
    return c > Math.max(leastCoherence, (deviations * deviation * this.hits) / (this.hits - 1)) ? c : Number.NaN;
  }

  /** Coherence over SUM_BAND, bias removed, each point by the energy that the two have there; 0 without any. Real-time safe: yes. */
  ofWhole(): number {
    let sum = 0;
    let weight = 0;
    for (let p = 0; p < SPECTRUM_POINTS; p++) {
      const f = spectrumHz(p);
      const c = this.coherence[p] as number;
      if (f < SUM_BAND.lowHz || f > SUM_BAND.highHz || Number.isNaN(c)) continue;
      // a point's power is that of its stretch, and stretches lie as far apart as they are wide
      const w = this.energy[p] as number;
      sum += c * w;
      weight += w;
    }
    return weight > 0 ? sum / weight : 0;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.re.fill(Number.NaN);
    this.im.fill(Number.NaN);
    this.coherence.fill(Number.NaN);
  }
}
