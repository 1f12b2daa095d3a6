/**
 * A drum with several microphones tells which of them isn't at it: the others hear one sound closest, that one another; and a track called
 * after some other drum hears theirs closest too. These two have each other's names.
 */
import type { MicGuess } from '../../advice/names/guessPair';
import { hearsAll } from '../../advice/names/guessPair';
import { closeTo, type KitDrum } from '../hits/kitDrums';

/** the sound that a track hears closest stands above the next one by so much, dB, or nobody knows */
const CLEAR_DB = 3;

/** what some track hears so much closer counts for that one alone, dB: what little all the others hear of a hi-hat tells nothing */
const FAR_DB = 15;
/** of a drum's own microphones none hears it so much closer than another, dB: one that hears a neighbour's drum by bleed does */
const ALIKE_DB = 6;

/** A track that is called after a drum. */
export interface CloseTrack {
  track: number;
  drum: string;
  /** number of the sound that it hears closest; null: none clearly */
  closest: number | null;
  /** by how much it hears that one louder than the others do, dB */
  closeDb: number;
}

/** @param listened numbers of the tracks that the sounds were heard in, in their order */
export function closeTracks(
  drums: readonly KitDrum[],
  listened: readonly number[],
  mics: readonly MicGuess[],
): CloseTrack[] {
  const close = (t: number, { sounds }: KitDrum): number =>
    Math.max(...sounds.map(({ shape }) => closeTo(shape, t, [t])));
  const closest = drums.map((drum) => Math.max(...listened.map((_, t) => close(t, drum))));
  return listened.flatMap((track, t) => {
    const mic = mics[track] as MicGuess;
    if (hearsAll(mic) || mic.drum === '') return [];
    const heard = drums
      .map((drum, d) => ({ d, db: close(t, drum) }))
      .filter(({ d, db }) => db > (closest[d] as number) - FAR_DB);
    heard.sort((p, q) => q.db - p.db);
    const [first, second] = heard;
    const clear = first && (!second || first.db - second.db >= CLEAR_DB);
    return { track, drum: mic.drum, closest: clear ? first.d : null, closeDb: first?.db ?? 0 };
  });
}

/** @returns numbers of two tracks; null: none are sure to be swapped */
export function swappedBySound(tracks: readonly CloseTrack[]): [number, number] | null {
  const found = tracks.flatMap((odd) => {
    const mates = tracks.filter((one) => one !== odd && one.drum === odd.drum && one.closest !== null);
    const [theirs] = new Set(mates.map(({ closest }) => closest));
    if (odd.closest === null || theirs === undefined || theirs === odd.closest) return [];
    if (mates.some(({ closest }) => closest !== theirs)) return [];
    return tracks.flatMap((other): [CloseTrack, CloseTrack][] => {
      if (other.drum === odd.drum || other.closest !== theirs || !fits(odd, other, tracks)) return [];
      return mates.some(({ closeDb }) => Math.abs(closeDb - other.closeDb) < ALIKE_DB) ? [[odd, other]] : [];
    });
  });
  const [only] = found;
  return only && found.length === 1 ? [only[0].track, only[1].track] : null;
}

/** What the odd one hears closest is the drum that the other is called after, as far as more tracks say. */
function fits(odd: CloseTrack, other: CloseTrack, tracks: readonly CloseTrack[]): boolean {
  return tracks.every((one) => {
    if (one === odd || one === other || one.closest === null) return true;
    return (one.closest === odd.closest) === (one.drum === other.drum);
  });
}
