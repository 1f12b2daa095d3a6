/** Which pairs are read of a drum: its own microphone with all that hear it, and those that hear the kit among each other. */
import { hearsAll, type MicGuess } from '../../advice/names/guessPair';
import type { Moment } from '../hits/events';
import { type KitDrum, levelIn } from '../hits/kitDrums';

/** a track that hears a drum so much softer than its own loudest hits hears too little of it to be read, dB */
const HEARS_DB = -32;

export interface PlannedPair {
  a: number;
  b: number;
}

/** which of a drum's own microphones the others are compared with: one in the open before one below, at the shell or out in front; never a speaker used as one */
const LATER: readonly MicGuess['place'][] = ['bottom', 'reso', 'shell', 'outside', 'front'];

/** A drum's own track: the one that hears it loudest of those that hear its attack best. @returns null: no microphone is close to it */
export function ownTrack({ own, sounds }: KitDrum, mics: readonly MicGuess[]): number | null {
  const place = (t: number): MicGuess['place'] => (mics[t] as MicGuess).place;
  const level = (t: number): number => Math.max(...sounds.map(({ shape }) => levelIn(shape, t)));
  const rank = (t: number): number => (LATER.includes(place(t)) ? 1 : 0);
  const able = own.filter((t) => place(t) !== 'driver');
  return able.sort((p, q) => rank(p) - rank(q) || level(q) - level(p))[0] ?? null;
}

/**
 * @param mics what is known of each track
 * @param moments of the drum's hits
 */
export function pairsOf(drum: KitDrum, mics: readonly MicGuess[], moments: readonly Moment[]): PlannedPair[] {
  const tracks = mics.map((_, t) => t);
  const level = (t: number): number => Math.max(...drum.sounds.map(({ shape }) => levelIn(shape, t)));
  const hearing = tracks.filter((t) => level(t) > HEARS_DB);
  const own = ownTrack(drum, mics);
  const heads = own === null ? [...new Set([loudest(hearing, level), first(hearing, moments)])] : [own];
  const close = new Set(own === null ? [] : drum.own);
  const whole = hearing.filter((t) => close.has(t) || hearsAll(mics[t] as MicGuess));
  const pairs: PlannedPair[] = [];
  const add = (a: number, b: number): void => {
    const known = pairs.some((pair) => (pair.a === a && pair.b === b) || (pair.a === b && pair.b === a));
    if (a !== b && !known) pairs.push({ a, b });
  };
  for (const head of heads) if (head !== undefined) for (const t of hearing) add(head, t);
  for (const a of whole) for (const b of whole) if (a < b) add(a, b);
  return pairs;
}

const loudest = (tracks: readonly number[], level: (t: number) => number): number | undefined =>
  [...tracks].sort((p, q) => level(q) - level(p))[0];

/** The track that hears most of the hits begin before all others. */
function first(tracks: readonly number[], moments: readonly Moment[]): number | undefined {
  const mean = (t: number): number => {
    const lates = moments.map(({ begins, hop }) => (begins[t] as number) - hop).filter((late) => !Number.isNaN(late));
    return lates.length > 0 ? lates.reduce((sum, x) => sum + x, 0) / lates.length : Number.POSITIVE_INFINITY;
  };
  return [...tracks].sort((p, q) => mean(p) - mean(q))[0];
}
