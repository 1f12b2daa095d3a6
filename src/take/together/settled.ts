/** A drum's pairs with what the other tracks make of them. */
import { notchesHz, pathCm } from '../../reading/acoustics';
import type { PairReport } from '../model';
import { unclear } from '../pairs/plausible';
import { type DrumTracks, settle } from './together';

const NOTCHES = 5;

/**
 * What to do about a pair that others answer is told by its sum alone, as its own hits carry it: what a delay would gain is only measured
 * round an arrival that they show.
 */
export function settled(pairs: readonly PairReport[], tracks: DrumTracks, temperatureC: number): PairReport[] {
  return settle(pairs, tracks).map((found, i): PairReport => {
    const pair = pairs[i] as PairReport;
    if (found === null) return pair;
    if (found.kind === 'contradicted') return unclear(pair, found.reason);
    const { delaySamples, sign, uncertaintySamples, reason } = found;
    const polarity = sign > 0 ? 'same' : 'inverted';
    const delaySeconds = delaySamples / tracks.sampleRate;
    return {
      ...pair,
      from: 'others',
      state: 'measured',
      reason,
      reasonCode: 'agreed',
      polarity,
      delaySamples,
      delayMs: 1000 * delaySeconds,
      pathCm: pathCm(delaySeconds, temperatureC),
      spreadSamples: null,
      uncertaintySamples,
      notchesHz: notchesHz(delaySeconds, polarity).slice(0, NOTCHES),
    };
  });
}
