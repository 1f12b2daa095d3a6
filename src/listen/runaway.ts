/**
 * Is what is monitored running away? A howl grows by the same factor from moment to moment and doesn't fall back; a hit is
 * there at once and then only falls. Common practice, no source; the thresholds were chosen by the tests beside it.
 */

/** one level each, s */
const WINDOW_SECONDS = 0.025;
/** nothing softer than that counts, dBFS RMS */
const FLOOR_DBFS = -50;
/** a rise by so much within a second, without falling back by more than that, dB */
const RISE_DB = 12;
const BACK_DB = 1.5;
/** so much of it outside its two steepest windows: a hit's beginning is a jump, dB */
const SPREAD_DB = 6;
/** more than that from one window to the next is a hit, dB */
const JUMP_DB = 9;
const SECOND = Math.round(1 / WINDOW_SECONDS);
/** so near full scale, dBFS peak as it comes in or before it is limited, for so long: a howl that grew too fast to be seen growing is stopped within half a second of its beginning */
const NEAR_DBFS = -3;
const NEAR_SECONDS = 0.325;

export class Runaway {
  private readonly levels = new Float64Array(SECOND);
  private readonly windowFrames: number;
  private count = 0;
  private inWindow = 0;
  private sum = 0;
  private peak = 0;
  private nearWindows = 0;

  constructor(sampleRate: number) {
    this.windowFrames = Math.max(1, Math.round(WINDOW_SECONDS * sampleRate));
  }

  /**
   * What goes to the ears, before it is limited. Real-time safe: yes.
   * @param inPeak highest of what comes in meanwhile: near full scale there counts as well, however far a version turns it down
   * @returns true: it runs away
   */
  push(left: Float64Array, right: Float64Array, n: number, inPeak = 0): boolean {
    let tripped = false;
    if (inPeak > this.peak) this.peak = inPeak;
    for (let i = 0; i < n; i++) {
      const x = left[i] as number;
      const y = right[i] as number;
      const high = Math.max(Math.abs(x), Math.abs(y));
      this.sum += high * high;
      if (high > this.peak) this.peak = high;
      if (++this.inWindow === this.windowFrames && this.close()) tripped = true;
    }
    return tripped;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.count = 0;
    this.inWindow = 0;
    this.sum = 0;
    this.peak = 0;
    this.nearWindows = 0;
  }

  private close(): boolean {
    const level = 10 * Math.log10(Math.max(1e-12, this.sum / this.windowFrames));
    this.levels[this.count % SECOND] = level;
    this.count += 1;
    const isNear = this.peak >= 10 ** (NEAR_DBFS / 20);
    this.nearWindows = isNear ? this.nearWindows + 1 : 0;
    this.inWindow = 0;
    this.sum = 0;
    this.peak = 0;
    return this.nearWindows * WINDOW_SECONDS >= NEAR_SECONDS || this.rises(level);
  }

  private at(back: number): number {
    return this.levels[(this.count - 1 - back) % SECOND] as number;
  }

  /** Back from the newest, which must be the loudest of the second, for as long as it never fell. */
  private rises(newest: number): boolean {
    if (newest < FLOOR_DBFS) return false;
    const reach = Math.min(SECOND, this.count);
    for (let back = 1; back < reach; back++) if (this.at(back) > newest) return false;
    let low = newest;
    let later = newest;
    let stepBefore = 0;
    let steepest = 0;
    for (let back = 1; back < reach; back++) {
      const level = this.at(back);
      const step = later - level;
      if (level > low + BACK_DB || step > JUMP_DB || level < FLOOR_DBFS) return false;
      if (level < low) low = level;
      if (step + stepBefore > steepest) steepest = step + stepBefore;
      stepBefore = step;
      later = level;
      const rise = newest - low;
      if (rise >= RISE_DB && rise - steepest >= SPREAD_DB) return true;
    }
    return false;
  }
}
