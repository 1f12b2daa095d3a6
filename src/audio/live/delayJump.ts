/**
 * The shown drum's delay before and after a moment: a jump that comes with another noise in both channels is another input, not a
 * stand that was moved.
 */
import { answerOf, type Reading } from '../../reading/reading';

/** s (5 cm of path) */
const JUMP_SECONDS = 0.00015;

export class DelayJump {
  private drum: number | null = null;
  private before = Number.NaN;
  private seconds = 0;

  /**
   * Every reading. The delay before is the one that stood when nothing was suspected.
   * @param isSuspect the noise of both channels changed lately
   */
  push(reading: Reading, isSuspect: boolean): boolean {
    const said = answerOf(reading);
    // begun anew: what was read before belongs to another patch or reach
    if (reading.streamSeconds < this.seconds) this.before = Number.NaN;
    this.seconds = reading.streamSeconds;
    if (said.state !== 'measured') return false;
    if (isSuspect && reading.drum === this.drum)
      return Math.abs(said.delaySamples - this.before) > JUMP_SECONDS * reading.sampleRate;
    if (!isSuspect) {
      this.drum = reading.drum;
      this.before = said.delaySamples;
    }
    return false;
  }
}
