/** Which witnesses can be read in a hit, and by which of them a move is watched. */
import type { HitStore } from '../hit/hitStore';
import type { Tuning } from '../tuning';

const BY_ARRIVALS = 0;
const BY_LOWS = 1;
const BY_WAVES = 2;

export class HitWitnesses {
  private readonly usableQuality: number;
  private readonly clearRival: number;
  private readonly waveform: boolean;
  private watchedBy = BY_ARRIVALS;
  /** the drum is read in the far reach: hits that were read in the other say nothing */
  far = false;
  /** delays and signs of the witness that is watched, slot after slot */
  delay: Float64Array = new Float64Array(0);
  sign: Float64Array = new Float64Array(0);

  constructor({ hit, delay, parts }: Tuning) {
    this.usableQuality = hit.arrival.usableQuality;
    this.clearRival = delay.wave.clearRival;
    this.waveform = parts.waveform;
  }

  /** A first arrival in both channels. Real-time safe: yes. */
  usable(store: HitStore, s: number): boolean {
    return this.reaches(store, s) && this.pushed(store, s);
  }

  /** The low end's first push in both channels, with nothing before it. Real-time safe: yes. */
  low(store: HitStore, s: number): boolean {
    return store.lowAlone[s] === 1 && this.reaches(store, s);
  }

  /** More hits show something in the far reach than in the near one. Real-time safe: yes. */
  judgeReach(store: HitStore, slots: Int32Array, n: number): void {
    let far = 0;
    let near = 0;
    for (let i = 0; i < n; i++) {
      const s = slots[i] as number;
      if (store.far[s]) far++;
      else if (this.pushed(store, s) || this.peaked(store, s)) near++;
    }
    this.far = far > near;
  }

  /** What the hit says counts in the reach that the drum is read in. Real-time safe: yes. */
  reaches(store: HitStore, s: number): boolean {
    return store.between[s] === 1 || (store.far[s] === 1) === this.far;
  }

  private pushed(store: HitStore, s: number): boolean {
    return !Number.isNaN(store.pickDelay[s] as number) && (store.pickQuality[s] as number) >= this.usableQuality;
  }

  /** A correlation with one clear peak. Real-time safe: yes. */
  clear(store: HitStore, s: number): boolean {
    return this.reaches(store, s) && this.peaked(store, s);
  }

  private peaked(store: HitStore, s: number): boolean {
    return this.waveform && (store.waveRival[s] as number) < this.clearRival;
  }

  /** A move is watched by first arrivals, or where few of the n hits can be read by what can. Real-time safe: yes. */
  choose(store: HitStore, slots: Int32Array, n: number): void {
    let picks = 0;
    let lows = 0;
    let waves = 0;
    for (let i = 0; i < n; i++) {
      const s = slots[i] as number;
      if (this.usable(store, s)) picks++;
      if (this.low(store, s)) lows++;
      if (this.clear(store, s)) waves++;
    }
    this.watchedBy = BY_ARRIVALS;
    if (2 * picks < n && Math.max(waves, lows) > picks) this.watchedBy = waves >= lows ? BY_WAVES : BY_LOWS;
    const by = this.watchedBy;
    this.delay = by === BY_ARRIVALS ? store.pickDelay : by === BY_LOWS ? store.lowDelay : store.waveDelay;
    this.sign = by === BY_ARRIVALS ? store.pickSign : by === BY_LOWS ? store.lowSign : store.waveSign;
  }

  /** The witness that is watched can be read in the hit. Real-time safe: yes. */
  watches(store: HitStore, s: number): boolean {
    if (this.watchedBy === BY_ARRIVALS) return this.usable(store, s);
    return this.watchedBy === BY_LOWS ? this.low(store, s) : this.clear(store, s);
  }
}
