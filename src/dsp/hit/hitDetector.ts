/** Finds where a hit begins, to within a block of 0.75 ms, in either of two high-passed channels. */
import { type DetectorTuning, HIT } from '../tuning/hitTuning';

/** Where hits begin. */
export interface HitSource {
  /** of the last `run`: frame at which a hit began too close to the one before to be read, or −1 */
  readonly soon: number;
  /** n frames more of each channel. Real-time safe: yes. @returns frame at which a hit begins, or −1 */
  run(a: Float64Array, b: Float64Array, n: number): number;
  /** Real-time safe: yes. */
  clear(): void;
}

/** Each channel is judged by its own past, so that a gain on one of them changes nothing. */
class Side {
  peak = 0;
  held = 0;
  private readonly past: Float64Array;
  private at = 0;
  private readonly shareOfHeld: number;
  private readonly leastPeak: number;
  private readonly rise: number;

  constructor(
    private readonly decay: number,
    tuning: DetectorTuning,
  ) {
    this.past = new Float64Array(tuning.blocksBefore);
    this.shareOfHeld = tuning.shareOfHeld;
    this.leastPeak = tuning.leastPeak;
    this.rise = tuning.rise;
  }

  /** True if the block just finished stands out. */
  close(): boolean {
    let before = 0;
    for (let i = 0; i < this.past.length; i++) before = Math.max(before, this.past[i] as number);
    const rises = this.peak > Math.max(this.shareOfHeld * this.held, this.leastPeak, this.rise * before);
    this.past[this.at] = this.peak;
    this.at = (this.at + 1) % this.past.length;
    this.held = Math.max(this.held * this.decay, this.peak);
    this.peak = 0;
    return rises;
  }

  clear(): void {
    this.peak = 0;
    this.held = 0;
    this.past.fill(0);
    this.at = 0;
  }
}

export class HitDetector implements HitSource {
  private readonly blockFrames: number;
  private readonly refractoryFrames: number;
  private readonly blindFrames: number;
  private readonly a: Side;
  private readonly b: Side;
  private frame = 0;
  private inBlock = 0;
  private quietUntil = 0;
  private readonly sameHitFrames: number;
  private lastTrigger = 0;
  private soonToldFor = -1;
  soon = -1;

  constructor(sampleRate: number, tuning: DetectorTuning = HIT.detector) {
    this.blockFrames = Math.max(1, Math.round(tuning.blockSeconds * sampleRate));
    const decay = 10 ** ((-tuning.heldDecayDbPerSecond * (this.blockFrames / sampleRate)) / 20);
    this.a = new Side(decay, tuning);
    this.b = new Side(decay, tuning);
    this.refractoryFrames = Math.round(tuning.refractorySeconds * sampleRate);
    this.blindFrames = Math.round(tuning.blindSeconds * sampleRate);
    this.sameHitFrames = Math.round(tuning.sameHitSeconds * sampleRate);
  }

  /**
   * n high-passed frames of each channel, fewer than the 80 ms in which a second hit can't begin. Real-time safe: yes.
   * @returns frame number at which a hit's block began, or −1
   */
  run(a: Float64Array, b: Float64Array, n: number): number {
    let found = -1;
    this.soon = -1;
    const { a: sideA, b: sideB } = this;
    // no call that takes a sample: see LevelMeter.run
    for (let i = 0; i < n; ) {
      const to = Math.min(n, i + this.blockFrames - this.inBlock);
      this.frame += to - i;
      this.inBlock += to - i;
      let peakA = sideA.peak;
      let peakB = sideB.peak;
      for (; i < to; i++) {
        const x = Math.abs(a[i] as number);
        const y = Math.abs(b[i] as number);
        if (x > peakA) peakA = x;
        if (y > peakB) peakB = y;
      }
      sideA.peak = peakA;
      sideB.peak = peakB;
      if (this.inBlock < this.blockFrames) break;
      this.inBlock = 0;
      const risesA = sideA.close();
      const risesB = sideB.close();
      if (!(risesA || risesB) || this.frame < this.blindFrames) continue;
      const at = this.frame - this.blockFrames;
      if (this.frame >= this.quietUntil) {
        this.quietUntil = this.frame + this.refractoryFrames;
        this.lastTrigger = at;
        found = at;
      } else if (at - this.lastTrigger >= this.sameHitFrames && this.soonToldFor !== this.lastTrigger) {
        // one is enough to say so
        this.soonToldFor = this.lastTrigger;
        this.soon = at;
      }
    }
    return found;
  }

  clear(): void {
    this.a.clear();
    this.b.clear();
    this.frame = 0;
    this.inBlock = 0;
    this.quietUntil = 0;
    this.lastTrigger = 0;
    this.soonToldFor = -1;
    this.soon = -1;
  }
}
