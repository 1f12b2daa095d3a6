/** How a hit's energy lies over bands of both channels: what tells one drum of a kit from another. */
import type { Gcc } from '../signal/gcc';
import { type FingerprintTuning, HIT } from '../tuning/hitTuning';

export const BANDS_A_CHANNEL = HIT.fingerprint.edgesHz.length - 1;
/** bands below 500 Hz */
export const LOW_BANDS = 5;
/** bands from 1 kHz on: where a microphone hears the drum that it stands at, and of others hardly anything */
export const NEAR_BANDS_FROM = 6;
/** values of a fingerprint, dB: A's bands, then B's */
export const FINGERPRINT = 2 * BANDS_A_CHANNEL;
const FLOOR = 1e-20;

export class Fingerprints {
  private readonly edges = new Int32Array(BANDS_A_CHANNEL + 1);

  /** @param size of the transform the spectra come from */
  constructor(sampleRate: number, size: number, tuning: FingerprintTuning = HIT.fingerprint) {
    tuning.edgesHz.forEach((hz, i) => {
      this.edges[i] = Math.max(1, Math.min(size / 2, Math.round((hz * size) / sampleRate)));
    });
  }

  /** Levels of the bands, dB, into out[at…]. Real-time safe: yes. */
  write(g: Gcc, out: Float64Array, at: number): void {
    for (let b = 0; b < BANDS_A_CHANNEL; b++) {
      let a = FLOOR;
      let bb = FLOOR;
      for (let k = this.edges[b] as number; k < (this.edges[b + 1] as number); k++) {
        a += (g.aRe[k] as number) ** 2 + (g.aIm[k] as number) ** 2;
        bb += (g.bRe[k] as number) ** 2 + (g.bIm[k] as number) ** 2;
      }
      out[at + b] = 10 * Math.log10(a);
      out[at + BANDS_A_CHANNEL + b] = 10 * Math.log10(bb);
    }
  }
}
