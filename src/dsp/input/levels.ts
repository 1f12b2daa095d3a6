/** Level, clips, DC and silence of one channel. */
import { INPUT, type InputTuning } from '../tuning/inputTuning';

/** the window moves on by one of so many parts */
const SLOTS = 8;
/** AES17: a full-scale sine's RMS reads 0 dBFS */
const SINE_OFFSET_DB = 10 * Math.log10(2);

export class LevelMeter {
  clips = 0;
  /** something was above −80 dBFS since the start */
  heard = false;
  private readonly slotFrames: number;
  private readonly silentFrames: number;
  private readonly dcShare: number;
  private readonly silentPeak: number;
  private readonly fullScale: number;
  private readonly runSamples: number;
  private readonly peaks = new Float64Array(SLOTS);
  private readonly powers = new Float64Array(SLOTS);
  private at = 0;
  private inSlot = 0;
  private peak = 0;
  private power = 0;
  private clipRun = 0;
  private mean = 0;
  private sinceSignal = 0;

  constructor(sampleRate: number, { level, clip }: Pick<InputTuning, 'level' | 'clip'> = INPUT) {
    this.slotFrames = Math.round((level.windowSeconds / SLOTS) * sampleRate);
    this.silentFrames = Math.round(level.silentSeconds * sampleRate);
    this.silentPeak = level.silentPeak;
    this.fullScale = clip.fullScale;
    this.runSamples = clip.runSamples;
    this.dcShare = 1 / sampleRate;
  }

  /**
   * n samples, and the same freed from DC, which is no signal. Real-time safe: yes. One loop over locals: a number handed
   * to a function once a sample is a small object wherever the compiler doesn't inline the call.
   */
  run(x: Float64Array, free: Float64Array, n: number): void {
    const { dcShare, slotFrames, silentPeak, fullScale, runSamples } = this;
    let { peak, power, mean, inSlot, clipRun, sinceSignal } = this;
    let heard = false;
    for (let i = 0; i < n; i++) {
      const sample = x[i] as number;
      const v = Math.abs(sample);
      if (v > peak) peak = v;
      power += sample * sample;
      mean += (sample - mean) * dcShare;
      if (v >= fullScale) {
        if (++clipRun === runSamples) this.clips++;
      } else clipRun = 0;
      if (Math.abs(free[i] as number) > silentPeak) {
        sinceSignal = 0;
        heard = true;
      } else sinceSignal++;
      if (++inSlot < slotFrames) continue;
      this.peaks[this.at] = peak;
      this.powers[this.at] = power / slotFrames;
      this.at = (this.at + 1) % SLOTS;
      inSlot = 0;
      peak = 0;
      power = 0;
    }
    this.peak = peak;
    this.power = power;
    this.mean = mean;
    this.inSlot = inSlot;
    this.clipRun = clipRun;
    this.sinceSignal = sinceSignal;
    if (heard) this.heard = true;
  }

  /**
   * Largest |x| of the last 0.4 s, dBFS, the RMS re a full-scale sine (AES17), both NaN for digital silence, and the mean of about
   * the last second, share of full scale, at their places. Put, not returned: forty times a second a fraction would be
   * an object. Real-time safe: yes.
   */
  write(out: Float64Array, peakAt: number, rmsAt: number, dcAt: number): void {
    let m = this.peak;
    let p = 0;
    for (let i = 0; i < SLOTS; i++) {
      m = Math.max(m, this.peaks[i] as number);
      p += this.powers[i] as number;
    }
    if (m > 0) out[peakAt] = 20 * Math.log10(m);
    else out[peakAt] = Number.NaN;
    if (p > 0) out[rmsAt] = 10 * Math.log10(p / SLOTS) + SINE_OFFSET_DB;
    else out[rmsAt] = Number.NaN;
    if (Math.abs(this.mean) < 1e-9) out[dcAt] = 0;
    else out[dcAt] = this.mean;
  }

  /** Nothing above −80 dBFS for 2 s. */
  get silent(): boolean {
    return this.sinceSignal >= this.silentFrames;
  }

  clear(): void {
    this.clips = 0;
    this.sinceSignal = 0;
    this.heard = false;
    this.mean = 0;
    this.clipRun = 0;
    this.peaks.fill(0);
    this.powers.fill(0);
    this.peak = 0;
    this.power = 0;
    this.inSlot = 0;
  }
}
