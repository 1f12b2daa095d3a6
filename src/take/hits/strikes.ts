/** Who was struck at each moment of a take: the drum whose sound explains it best, or two or three of them at once. */
import { BANDS } from '../scan/levelScan';
import { type Moment, topLevels } from './events';
import { type Ear, type KitDrum, kitDrums, levelIn } from './kitDrums';
import { added, apart, type Shape, shapeOf, soundsOf } from './sounds';

/** dB: a moment that lies farther from every drum than that is nobody's */
const UNKNOWN_DB = 9;
/** a second drum is struck as well where it brings the distance down to that share, and by so many dB */
const SECOND_SHARE = 0.7;
const SECOND_DB = 1;
const MOST_AT_ONCE = 3;
/** levels of a further drum against the first, dB */
const FURTHER_DB = Array.from({ length: 21 }, (_, i) => -24 + 2 * i);

export interface Strike {
  /** hop at which the first track hears it */
  hop: number;
  /** numbers of the drums, the loudest first; empty: nobody's */
  drums: number[];
  /** how far the moment lies from what these drums sound like, dB */
  apartDb: number;
}

export interface Struck {
  drums: KitDrum[];
  strikes: Strike[];
  /** level of each track's loudest moments, dB */
  tops: number[];
}

/** @param moments of the tracks that `ears` are */
export function strikesOf(moments: readonly Moment[], ears: readonly Ear[]): Struck {
  const tops = topLevels(ears.length, moments);
  const shapes = moments.map((moment) => shapeOf(moment, tops));
  const drums = kitDrums(soundsOf(shapes), ears);
  const strikes = moments.map(({ hop }, i) => ({ hop, ...explained(shapes[i] as Shape, drums) }));
  return { drums, strikes, tops };
}

interface Mix {
  shape: Shape;
  parts: { drum: number; db: number; shape: Shape }[];
  apartDb: number;
}

function explained(shape: Shape, drums: readonly KitDrum[]): Pick<Strike, 'drums' | 'apartDb'> {
  let mix: Mix | null = null;
  // nearer than that nothing more can be clearly better
  for (let n = 0; n < MOST_AT_ONCE && (mix === null || mix.apartDb > SECOND_DB); n++) {
    const next = better(shape, drums, mix);
    if (next === null) break;
    mix = next;
  }
  if (mix === null) return { drums: [], apartDb: Number.POSITIVE_INFINITY };
  const loud = (part: Mix['parts'][number]): number => part.db + loudest(part.shape);
  return {
    drums: mix.apartDb > UNKNOWN_DB ? [] : mix.parts.sort((p, q) => loud(q) - loud(p)).map(({ drum }) => drum),
    apartDb: mix.apartDb,
  };
}

/** The mix with one drum more; null: none explains it clearly better. */
function better(shape: Shape, drums: readonly KitDrum[], mix: Mix | null): Mix | null {
  let best: Mix | null = null;
  drums.forEach(({ sounds }, drum) => {
    if (mix?.parts.some((part) => part.drum === drum)) return;
    for (const { shape: sound } of sounds)
      for (const db of mix === null ? [0] : FURTHER_DB) {
        const sum = mix === null ? sound : added(mix.shape, sound, db);
        const apartDb = apart(shape, sum);
        if (best === null || apartDb < best.apartDb)
          best = { shape: sum, parts: [...(mix?.parts ?? []), { drum, db, shape: sound }], apartDb };
      }
  });
  const found = best as Mix | null;
  if (found === null || mix === null) return found;
  return found.apartDb < SECOND_SHARE * mix.apartDb && found.apartDb < mix.apartDb - SECOND_DB ? found : null;
}

const loudest = (shape: Shape): number =>
  Math.max(...Array.from({ length: shape.length / BANDS }, (_, t) => levelIn(shape, t)));
