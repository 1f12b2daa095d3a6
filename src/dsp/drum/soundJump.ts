/**
 * A drum whose delay has jumped: are the hits after that another drum's? A microphone that was moved changes what it hears itself,
 * not what the other one hears; with another drum the sound changes in both.
 */
import { BANDS_A_CHANNEL, FINGERPRINT } from '../hit/fingerprint';
import type { HitStore } from '../hit/hitStore';

/** hits on either side, so that one odd hit is no drum */
const LEAST_HITS = 2;

export class SoundJump {
  /** mean fingerprints of the hits up to the jump, and of those after it */
  readonly before = new Float64Array(FINGERPRINT);
  readonly after = new Float64Array(FINGERPRINT);

  /**
   * Real-time safe: yes.
   * @param upTo serial of the last hit before the jump
   * @returns dB, RMS, by which the sound differs at least in each of the channels, its level taken out; 0: too few hits
   */
  apart(store: HitStore, d: number, upTo: number): number {
    const before = meanPrint(store, d, 0, upTo, this.before);
    const after = meanPrint(store, d, upTo, Number.POSITIVE_INFINITY, this.after);
    if (before < LEAST_HITS || after < LEAST_HITS) return 0;
    return Math.min(this.channelApart(0), this.channelApart(BANDS_A_CHANNEL));
  }

  private channelApart(at: number): number {
    let mean = 0;
    let square = 0;
    for (let k = at; k < at + BANDS_A_CHANNEL; k++) {
      const x = (this.after[k] as number) - (this.before[k] as number);
      mean += x / BANDS_A_CHANNEL;
      square += (x * x) / BANDS_A_CHANNEL;
    }
    return Math.sqrt(Math.max(0, square - mean * mean));
  }
}

/** Mean fingerprint of the drum's hits after one serial, up to another. @returns how many */
function meanPrint(store: HitStore, d: number, from: number, to: number, out: Float64Array): number {
  let n = 0;
  out.fill(0);
  for (let i = 0; i < store.kept; i++) {
    const s = store.at(i);
    const serial = store.serial[s] as number;
    if (store.drum[s] !== d || serial <= from || serial > to) continue;
    n++;
    for (let k = 0; k < FINGERPRINT; k++)
      out[k] = (out[k] as number) + ((store.print[s * FINGERPRINT + k] as number) - (out[k] as number)) / n;
  }
  return n;
}
