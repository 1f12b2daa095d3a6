/** How far a hit's low end stands over its attack in one channel. */

const LOW_FROM_HZ = 40;
const LOW_TO_HZ = 250;
const HIGH_FROM_HZ = 2000;
const HIGH_TO_HZ = 12000;

export class Tilt {
  private readonly lowFrom: number;
  private readonly lowTo: number;
  private readonly highFrom: number;
  private readonly highTo: number;

  /** @param size of the transform the spectra come from */
  constructor(sampleRate: number, size: number) {
    const bin = (hz: number): number => Math.max(1, Math.min(size / 2 - 1, Math.round((hz * size) / sampleRate)));
    this.lowFrom = bin(LOW_FROM_HZ);
    this.lowTo = bin(LOW_TO_HZ);
    this.highFrom = bin(HIGH_FROM_HZ);
    this.highTo = bin(HIGH_TO_HZ);
  }

  /** 40–250 Hz over 2–12 kHz, dB. Real-time safe: yes. */
  of(re: Float64Array, im: Float64Array): number {
    let low = 1e-30;
    let high = 1e-30;
    for (let k = this.lowFrom; k <= this.lowTo; k++) low += (re[k] as number) ** 2 + (im[k] as number) ** 2;
    for (let k = this.highFrom; k <= this.highTo; k++) high += (re[k] as number) ** 2 + (im[k] as number) ** 2;
    return 10 * Math.log10(low / high);
  }
}
