/** A stretch of what is read, to be listened to, with its hits. */

import { HitDetector } from '../../dsp/hit/hitDetector';
import { HighPass1 } from '../../dsp/signal/filters';
import { TUNING } from '../../dsp/tuning';
import { ownHits } from '../../listen/ownHits';
import type { PairSound } from '../../listen/version';

/** no more than that is taken, s, and so long after the newest hit */
const MOST_SECONDS = 20;
const AFTER_SECONDS = 3;

export interface Heard {
  sampleRate: number;
  a: Float32Array;
  b: Float32Array;
  swapped: boolean;
  offsetSamples: number;
  isNewest: boolean;
}

/**
 * @param hits of the drum that is read: by its stream's seconds, which begin anywhere, and come round again after
 * `periodSeconds`; or exactly where they lie in the sound
 */
export function pairSound(
  heard: Heard,
  hits: { ofStream: readonly number[]; periodSeconds: number | null } | { exact: readonly number[] },
): PairSound {
  const { sampleRate, swapped, offsetSamples, isNewest } = heard;
  const [a, b] = swapped ? [heard.b, heard.a] : [heard.a, heard.b];
  const found = findHits(a, b, sampleRate);
  const own = 'exact' in hits ? [...hits.exact] : ownHits(found, hits.ofStream, hits.periodSeconds);
  return { sampleRate, a, b, offsetSamples, hitsSeconds: found, ownSeconds: own, isNewest };
}

/** From … to, in frames: round the last of these hits; without any, the last or the first of it. */
export function stretchAround(
  hitsSeconds: readonly number[],
  sampleRate: number,
  frames: number,
): [from: number, to: number] {
  const most = MOST_SECONDS * sampleRate;
  const last = hitsSeconds.at(-1);
  const to = Math.min(frames, last === undefined ? most : Math.round((last + AFTER_SECONDS) * sampleRate));
  return [Math.max(0, to - most), to];
}

/** Both channels of it, what is no number being silence. */
export function cutBuffer(buffer: AudioBuffer, from: number, to: number): { a: Float32Array; b: Float32Array } {
  const [a, b] = [new Float32Array(to - from), new Float32Array(to - from)];
  buffer.copyFromChannel(a, 0, from);
  buffer.copyFromChannel(b, buffer.numberOfChannels > 1 ? 1 : 0, from);
  for (const channel of [a, b])
    for (let i = 0; i < channel.length; i++) if (!Number.isFinite(channel[i])) channel[i] = 0;
  return { a, b };
}

const CHUNK = 512;

/** Where hits begin, as the meter finds them, s. */
function findHits(a: Float32Array, b: Float32Array, sampleRate: number): number[] {
  const detector = new HitDetector(sampleRate);
  const filters = [a, b].map(() => new HighPass1(sampleRate, TUNING.input.filters.pickCornerHz));
  const [inA, inB, pickA, pickB] = [0, 1, 2, 3].map(() => new Float64Array(CHUNK)) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const found: number[] = [];
  for (let at = 0; at < a.length; at += CHUNK) {
    const n = Math.min(CHUNK, a.length - at);
    inA.set(a.subarray(at, at + n));
    inB.set(b.subarray(at, at + n));
    filters[0]?.run(inA, pickA, n);
    filters[1]?.run(inB, pickB, n);
    const hit = detector.run(pickA, pickB, n);
    if (hit >= 0) found.push(hit / sampleRate);
  }
  return found;
}
