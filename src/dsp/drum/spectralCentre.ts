/** Where the middle of a drum's energy lies, by its mean fingerprint. */
import { BANDS_A_CHANNEL } from '../hit/fingerprint';
import { HIT } from '../tuning/hitTuning';

export class SpectralCentre {
  /** middles of the fingerprint's bands, octaves */
  private readonly middleLogHz = new Float64Array(BANDS_A_CHANNEL);

  constructor(edgesHz: readonly number[] = HIT.fingerprint.edgesHz) {
    for (let b = 0; b < BANDS_A_CHANNEL; b++) {
      const middleHz = Math.sqrt((edgesHz[b] as number) * (edgesHz[b + 1] as number));
      this.middleLogHz[b] = Math.log2(Math.round(middleHz));
    }
  }

  /** Real-time safe: yes. @param at of A's bands in `print`, dB @returns Hz; NaN where there is none */
  of(print: Float64Array, at: number): number {
    let sum = 0;
    let weight = 0;
    for (let b = 0; b < BANDS_A_CHANNEL; b++) {
      const power = 10 ** ((print[at + b] as number) / 10);
      sum += power * (this.middleLogHz[b] as number);
      weight += power;
    }
    return weight > 0 ? 2 ** (sum / weight) : Number.NaN;
  }
}
