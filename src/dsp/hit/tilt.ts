/** How far a hit's low end stands over its attack in one channel. */
import { HIT, type TiltTuning } from '../tuning/hitTuning';

export class Tilt {
  private readonly lowFrom: number;
  private readonly lowTo: number;
  private readonly highFrom: number;
  private readonly highTo: number;

  /** @param size of the transform the spectra come from */
  constructor(sampleRate: number, size: number, tuning: TiltTuning = HIT.tilt) {
    const bin = (hz: number): number => Math.max(1, Math.min(size / 2 - 1, Math.round((hz * size) / sampleRate)));
    this.lowFrom = bin(tuning.lowFromHz);
    this.lowTo = bin(tuning.lowToHz);
    this.highFrom = bin(tuning.highFromHz);
    this.highTo = bin(tuning.highToHz);
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
