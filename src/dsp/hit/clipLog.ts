/** Where one channel clipped lately. */
import { type ClipTuning, INPUT } from '../tuning/inputTuning';

const CLIPS_KEPT = 64;

export class ClipLog {
  /** frames of the newest clips */
  private readonly at = new Float64Array(CLIPS_KEPT).fill(-1);
  private next = 0;
  private run = 0;
  private readonly fullScale: number;
  private readonly runSamples: number;

  constructor(tuning: ClipTuning = INPUT.clip) {
    this.fullScale = tuning.fullScale;
    this.runSamples = tuning.runSamples;
  }

  /** n samples from `frame` on; no call that takes a sample: see LevelMeter.run. Real-time safe: yes. */
  note(x: Float64Array, frame: number, n: number): void {
    const { fullScale, runSamples } = this;
    let { run } = this;
    for (let i = 0; i < n; i++) {
      const v = x[i] as number;
      run = v >= fullScale || v <= -fullScale ? run + 1 : 0;
      if (run !== runSamples) continue;
      this.at[this.next] = frame + i;
      this.next = (this.next + 1) % CLIPS_KEPT;
    }
    this.run = run;
  }

  /** Was there a clip in frames from…to? Real-time safe: yes. */
  within(from: number, to: number): boolean {
    for (let i = 0; i < CLIPS_KEPT; i++)
      if ((this.at[i] as number) >= from && (this.at[i] as number) <= to) return true;
    return false;
  }
}
