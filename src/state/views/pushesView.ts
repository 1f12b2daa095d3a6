/** The first pushes of the hits used, laid on each other at A's arrival, ready to draw; and the way they go. */
import { fateHere, honestPicture } from '../../advice/plan/hitFates';
import type { ChannelPicture, HitPicture, Pictures } from '../../reading/hitPictures';
import { answerOf, type HitReading, type Reading } from '../../reading/reading';
import { alignable, type PushWindow } from './whyView';

/** Lengths that the picture may have, ms: a few centimetres must be seen as well as the far end of a room. */
const LENGTHS_MS = [2, 4, 10, 25, 60, 220];
/** of its length before A's arrival, where B comes after it, and where B comes first */
const BEFORE = 0.15;
const BEFORE_B_FIRST = 0.6;
/** B's push has to begin within so much of the length on its side of A's */
const REACH = 0.6;
const REACH_B_FIRST = 0.5;
/** a picture stays as long as it is until the arrival is so near to A's, of its length */
const STAYS_FROM = 0.05;

/** Up, down, or not known. */
export type Way = 1 | -1 | 0;

export interface PushWave {
  serial: number;
  /** per column the least and the largest value, −1…+1; NaN: a gap */
  columns: Float32Array;
}

export interface PushesView {
  /** the window, ms from A's arrival */
  fromMs: number;
  lengthMs: number;
  a: PushWave[];
  b: PushWave[];
  /** B's arrival of each hit that has one, ms after A's; the oldest first */
  hits: { serial: number; delayMs: number }[];
  aWay: Way;
  bWay: Way;
  /** what the answer says, ms; null: no delay holds */
  foundMs: number | null;
  /** the channel that hears the lows only, where no first push can be read; null: neither */
  dull: 'a' | 'b' | null;
}

/**
 * The window that shows both first pushes, from A's arrival on.
 * @param foundMs B's arrival after A's; null: unknown · `before`: the window until now, which stays while it does
 */
export function pushWindow(foundMs: number | null, before: PushWindow | null): PushWindow {
  const bFirst = foundMs !== null && foundMs < 0;
  const size = Math.abs(foundMs ?? 0);
  const reach = bFirst ? REACH_B_FIRST : REACH;
  const fits = (lengthMs: number): boolean => size <= reach * lengthMs;
  const sameSide = before !== null && (foundMs === null || size < 0.1 || before.bFirst === bFirst);
  const wide = before !== null && before.lengthMs > (LENGTHS_MS[0] as number);
  if (
    before &&
    sameSide &&
    fits(before.lengthMs) &&
    (!wide || foundMs === null || size >= STAYS_FROM * before.lengthMs)
  )
    return before;
  const lengthMs = LENGTHS_MS.find(fits) ?? (LENGTHS_MS.at(-1) as number);
  return { fromMs: -lengthMs * (bFirst ? BEFORE_B_FIRST : BEFORE), lengthMs, bFirst };
}

/** The way that more than half of the first pushes go. */
function wayOf(channels: readonly ChannelPicture[]): Way {
  const sum = channels.reduce((all, { arrival, push }) => all + (arrival === null ? 0 : push), 0);
  return sum === 0 ? 0 : sum > 0 ? 1 : -1;
}

/** @returns null while there is no picture of a hit that is used */
export function pushesView(pictures: Pictures | null, reading: Reading | null): PushesView | null {
  if (pictures === null || reading === null || pictures.wish.alignSamples !== 0) return null;
  const said = answerOf(reading);
  const used = new Map<number, HitReading>();
  for (const hit of reading.perHit) if (fateHere(hit, reading) === 'used') used.set(hit.serial, hit);
  const all = pictures.hits.filter(({ serial }) => used.has(serial)).map((picture) => honestPicture(picture, said));
  const dull = (['a', 'b'] as const).find((of) => all.every((one) => one[of].arrival === null)) ?? null;
  // laid at A's arrival: one without it would be laid anywhere
  const kept = all.filter(({ a, b }) => dull !== null || (a.arrival !== null && b.arrival !== null)).reverse();
  if (kept.length === 0) return null;
  const wave = (of: 'a' | 'b') => (one: HitPicture) => ({ serial: one.serial, columns: one[of].columns });
  const { fromMs, lengthMs } = pictures.wish;
  const hits = [...used.values()].flatMap(({ serial, delaySamples }) =>
    delaySamples === null || dull ? [] : [{ serial, delayMs: (delaySamples / reading.sampleRate) * 1000 }],
  );
  return {
    fromMs,
    lengthMs,
    a: kept.map(wave('a')),
    b: kept.map(wave('b')),
    hits,
    aWay: wayOf(kept.map(({ a }) => a)),
    bWay: wayOf(kept.map(({ b }) => b)),
    foundMs: alignable(reading) && said.delaySamples !== null ? (said.delaySamples / reading.sampleRate) * 1000 : null,
    dull,
  };
}
