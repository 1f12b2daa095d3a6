/** A hit's onsets in both channels, and every delay that a pair of them could mean. */
import type { Rings } from '../input/inputs';
import { HIT, type OnsetTuning } from '../tuning/hitTuning';
import type { HitStore } from './hitStore';
import { OnsetPicker, Onsets, PAIRS } from './onsets';

/** One channel's first arrival: frame, way of the push; `found` false: none. */
export interface FirstPush {
  found: boolean;
  frame: number;
  sign: number;
}

export class OnsetPairs {
  private readonly picker: OnsetPicker;
  private readonly a = new Onsets();
  private readonly b = new Onsets();
  /** samples within which two pairs are one */
  private readonly same: number;

  constructor(
    sampleRate: number,
    maxLagMs: number,
    private readonly rings: Rings,
    tuning: OnsetTuning = HIT.onset,
  ) {
    this.picker = new OnsetPicker(sampleRate, maxLagMs, tuning);
    this.same = tuning.sameSeconds * sampleRate;
  }

  /** Each channel's onsets, from the other one's first push on; the trigger where there is none. Real-time safe: yes. */
  look(trigger: number, a: FirstPush, b: FirstPush): void {
    this.picker.pick(this.rings.pickA, b.found ? b.frame : trigger, this.a);
    this.picker.pick(this.rings.pickB, a.found ? a.frame : trigger, this.b);
  }

  /** The pairs of the hit that `look` saw last, the two first pushes' first. Real-time safe: yes. */
  write(store: HitStore, slot: number, a: FirstPush, b: FirstPush): void {
    store.pairs[slot] = 0;
    if (a.found && b.found) this.add(store, slot, b.frame - a.frame, a.sign * b.sign);
    const nA = this.a.count || (a.found ? 1 : 0);
    const nB = this.b.count || (b.found ? 1 : 0);
    for (let i = 0; i < nA; i++)
      for (let j = 0; j < nB; j++) {
        // a channel in which no onset rises has its first push alone
        const frameA = this.a.count > 0 ? (this.a.frame[i] as number) : a.frame;
        const signA = this.a.count > 0 ? (this.a.sign[i] as number) : a.sign;
        const frameB = this.b.count > 0 ? (this.b.frame[j] as number) : b.frame;
        const signB = this.b.count > 0 ? (this.b.sign[j] as number) : b.sign;
        this.add(store, slot, frameB - frameA, signA * signB);
      }
  }

  private add(store: HitStore, slot: number, delay: number, sign: number): void {
    const n = store.pairs[slot] as number;
    if (n === PAIRS) return;
    const from = slot * PAIRS;
    for (let q = from; q < from + n; q++)
      if (store.pairSign[q] === sign && Math.abs((store.pairDelay[q] as number) - delay) < this.same) return;
    store.pairDelay[from + n] = delay;
    store.pairSign[from + n] = sign;
    store.pairs[slot] = n + 1;
  }
}
