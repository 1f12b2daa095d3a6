/** Finds where a hit begins, to within a block of 0.75 ms, in either of two high-passed channels. */

const BLOCK_SECONDS = 0.00075;
const HELD_DECAY_DB_PER_SECOND = 6 / 8;
const SHARE_OF_HELD = 0.06;
const FLOOR = 1e-4;
const RISE = 3;
const BLOCKS_BEFORE = 20;
const REFRACTORY_SECONDS = 0.08;
const BLIND_SECONDS = 0.06;
/** a rise so soon after a hit's beginning is still that hit: the other channel's, or the drum's body */
const SAME_HIT_SECONDS = 0.04;

/** Each channel is judged by its own past, so that a gain on one of them changes nothing. */
class Side {
  peak = 0;
  held = 0;
  private readonly past = new Float64Array(BLOCKS_BEFORE);
  private at = 0;

  constructor(private readonly decay: number) {}

  /** True if the block just finished stands out. */
  close(): boolean {
    let before = 0;
    for (let i = 0; i < BLOCKS_BEFORE; i++) before = Math.max(before, this.past[i] as number);
    const rises = this.peak > Math.max(SHARE_OF_HELD * this.held, FLOOR, RISE * before);
    this.past[this.at] = this.peak;
    this.at = (this.at + 1) % BLOCKS_BEFORE;
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

export class HitDetector {
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
  /** of the last `run`: frame at which a hit began too close to the one before to be read, or −1 */
  soon = -1;

  constructor(sampleRate: number) {
    this.blockFrames = Math.max(1, Math.round(BLOCK_SECONDS * sampleRate));
    const decay = 10 ** ((-HELD_DECAY_DB_PER_SECOND * (this.blockFrames / sampleRate)) / 20);
    this.a = new Side(decay);
    this.b = new Side(decay);
    this.refractoryFrames = Math.round(REFRACTORY_SECONDS * sampleRate);
    this.blindFrames = Math.round(BLIND_SECONDS * sampleRate);
    this.sameHitFrames = Math.round(SAME_HIT_SECONDS * sampleRate);
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
    for (let i = 0; i < n; i++) {
      const x = Math.abs(a[i] as number);
      const y = Math.abs(b[i] as number);
      if (x > sideA.peak) sideA.peak = x;
      if (y > sideB.peak) sideB.peak = y;
      this.frame++;
      if (++this.inBlock < this.blockFrames) continue;
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
