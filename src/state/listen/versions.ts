/** What is to be heard, from what is to be done. */
import type { Action } from '../../advice/plan/alternatives';
import type { Version } from '../../listen/version';
import { speedOfSound } from '../../reading/acoustics';

export const NOW: Version = { id: 'now', name: 'Now', invertB: false, delayBSamples: 0, trimBDb: 0 };

/** @param trimBDb against equal levels */
export function versionOf(
  id: string,
  name: string,
  { invertB, delayMs, moveCm }: Action,
  trimBDb: number,
  { sampleRate, temperatureC }: { sampleRate: number; temperatureC: number },
): Version {
  // a delay is A's, and a move B's towards the drum: both bring B forward against A
  const forwardSeconds = (delayMs ?? 0) / 1000 + (moveCm ?? 0) / 100 / speedOfSound(temperatureC);
  return { id, name, invertB, delayBSamples: forwardSeconds === 0 ? 0 : -forwardSeconds * sampleRate, trimBDb };
}
