/**
 * Are the two channels really two? Settings don't tell: with voice processing on, or from a mono device, a browser
 * delivers one signal twice and still says "2 channels". Two inputs never agree in every bit while there is signal.
 */
import type { Reading } from '../../reading/reading';
import type { Problem } from '../link';

/** for so long beyond the engine's own second, s of the stream */
const SURE_SECONDS = 0.3;

export interface TrackFacts {
  channelCount?: number | undefined;
  echoCancellation?: boolean | string | undefined;
  noiseSuppression?: boolean | undefined;
  autoGainControl?: boolean | undefined;
}

export class OneSignalCheck {
  private sinceSeconds: number | null = null;
  private reported: Problem | null = null;

  /** @returns the problem once when it appears, its code in `over` once when it is gone, else null */
  push(reading: Reading, facts: TrackFacts): { problem: Problem } | { over: Problem['code'] } | null {
    const { streamSeconds } = reading;
    const { bitIdentical, gap, a, b } = reading.inputs;
    if (gap || a.silent || b.silent) {
      this.sinceSeconds = null;
      return null;
    }
    if (!bitIdentical) {
      this.sinceSeconds = null;
      const was = this.reported;
      this.reported = null;
      return was ? { over: was.code } : null;
    }
    if (this.sinceSeconds === null || streamSeconds < this.sinceSeconds) this.sinceSeconds = streamSeconds;
    if (this.reported || streamSeconds - this.sinceSeconds < SURE_SECONDS) return null;
    this.reported = oneSignalProblem(facts);
    return { problem: this.reported };
  }
}

function oneSignalProblem(facts: TrackFacts): Problem {
  const on: string[] = [];
  if (facts.echoCancellation) on.push('echo cancellation');
  if (facts.noiseSuppression) on.push('noise suppression');
  if (facts.autoGainControl) on.push('automatic gain control');
  if (on.length > 0) {
    return {
      code: 'processing-on',
      text: `A and B carry the same signal: ${on.join(' and ')} ${on.length === 1 ? 'is' : 'are'} on. Turn voice processing off for this input, in the browser and in the system, then press “Try again”.`,
    };
  }
  return {
    code: 'one-channel',
    text: 'A and B carry the same signal: the input is mono, or voice processing is on. Choose an input with two channels and turn the processing off, then press “Try again”.',
  };
}
