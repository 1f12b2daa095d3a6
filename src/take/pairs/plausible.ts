/** What all tracks together make of single readings: a drum's own microphone hears it first. */
import type { DrumReport, PairReport } from '../model';

/** that much earlier than a drum's own microphone no other hears it, cm: capsules close to one drum aside, and the drum's own size */
const EARLIER_CM = 15;

/**
 * Where another track is sure to hear a drum before the drum's own microphone, what that shows first isn't the stroke, or the
 * track is late: nothing is said with it.
 */
export function plausible(drum: DrumReport, closeFiles: readonly string[]): DrumReport {
  const { ownTrack } = drum;
  if (ownTrack === null) return drum;
  const earlier = drum.pairs.find(
    ({ a, b, state, pathCm }) =>
      a === ownTrack && !closeFiles.includes(b) && state === 'measured' && pathCm !== null && pathCm < -EARLIER_CM,
  );
  if (!earlier) return drum;
  const reason = `${earlier.b} hears it ${Math.round(-(earlier.pathCm as number))} cm earlier than ${ownTrack}, which is close to it: what that track shows first isn’t the hit, or it is late: listen to its first milliseconds.`;
  const pairs = drum.pairs.map((pair) =>
    pair.a === ownTrack && pair.state === 'measured' ? unclear(pair, reason) : pair,
  );
  return { ...drum, pairs };
}

/** The pair without its answer. */
export function unclear(pair: PairReport, reason: string): PairReport {
  return {
    ...pair,
    state: 'unclear',
    reason,
    polarity: null,
    delaySamples: null,
    delayMs: null,
    pathCm: null,
    spreadSamples: null,
    uncertaintySamples: null,
    notchesHz: [],
    advice: { action: 'cannot-tell', moveCm: null, delayLaterMs: null, text: 'Can’t tell', notes: [], cautions: [] },
    plan: [],
  };
}
