/** Moments at which something was struck, over all tracks of a take, and how loud each track heard it. */
import { BANDS, levelDb, type ScannedTrack } from '../scan/levelScan';
import { onsetsOf } from './onsets';

/** what is struck within so many hops is one moment */
const TOGETHER_HOPS = 20;
/** a microphone hears what is struck within so many hops: 7 m away, and what a stroke needs to unfold */
const HEARD_HOPS = 28;
/** before the moment: what rang already */
const BEFORE_FROM = 14;
const BEFORE_TO = 4;
/** the level is the mean of the loudest so many hops */
const LOUDEST = 4;
/** a moment is one that some track hears within so many dB of its own loudest */
const WEIGHT_DB = 40;
const ALONE_DB = 10;

export interface Moment {
  /** hop at which the first track hears it */
  hop: number;
  /** hop at which each track hears it begin, NaN: it doesn't begin there */
  begins: Float64Array;
  /** levels, dB: track by track, band by band; what rang already is taken out; −Infinity: nothing came; NaN: what rang hides it */
  levels: Float64Array;
}

/** @param tracks of one rate and beginning, silent ones left out @returns ascending */
export function momentsOf(tracks: readonly ScannedTrack[]): Moment[] {
  const onsets = tracks.flatMap((track, t) => onsetsOf(track).map(({ hop }) => ({ hop, t })));
  onsets.sort((p, q) => p.hop - q.hop);
  const moments: Moment[] = [];
  for (let i = 0; i < onsets.length; ) {
    const { hop } = onsets[i] as { hop: number };
    const begins = new Float64Array(tracks.length).fill(Number.NaN);
    for (; i < onsets.length && (onsets[i] as { hop: number }).hop - hop <= TOGETHER_HOPS; i++) {
      const { t, hop: at } = onsets[i] as { t: number; hop: number };
      if (Number.isNaN(begins[t] as number)) begins[t] = at;
    }
    moments.push({ hop, begins, levels: levelsAt(tracks, hop) });
  }
  return heard(tracks.length, moments);
}

/** Loudest level of each band within the time in which it is heard, less what rang before. */
function levelsAt(tracks: readonly ScannedTrack[], hop: number): Float64Array {
  const levels = new Float64Array(tracks.length * BANDS);
  tracks.forEach(({ bands, hops }, t) => {
    bands.forEach((band, b) => {
      const before = meanPower(band, Math.max(0, hop - BEFORE_FROM), Math.max(0, hop - BEFORE_TO));
      const after = loudest(band, hop, Math.min(hops, hop + HEARD_HOPS));
      levels[t * BANDS + b] = after > HIDDEN * before ? 10 * Math.log10(after - before) : hidden(before);
    });
  });
  return levels;
}

/** what rang is louder than that share of what came, so nobody knows how loud it was */
const HIDDEN = 2;
/** mean square below which nothing rang */
const NOTHING = 10 ** (-100 / 10);
const hidden = (before: number): number => (before < NOTHING ? Number.NEGATIVE_INFINITY : Number.NaN);

const POWERS = Float64Array.from({ length: 256 }, (_, kept) => (kept === 0 ? 0 : 10 ** (levelDb(kept) / 10)));

function meanPower(band: Uint8Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += POWERS[band[i] as number] as number;
  return to > from ? sum / (to - from) : 0;
}

function loudest(band: Uint8Array, from: number, to: number): number {
  let best = 0;
  for (let i = from; i + LOUDEST <= to; i++) best = Math.max(best, meanPower(band, i, i + LOUDEST));
  return best;
}

/** Level of a track at a moment, over all its bands, dB. */
export function trackLevel({ levels }: Moment, t: number): number {
  let power = 0;
  for (let b = 0; b < BANDS; b++) {
    const level = levels[t * BANDS + b] as number;
    if (!Number.isNaN(level)) power += 10 ** (level / 10);
  }
  return 10 * Math.log10(power);
}

/** The moments that some track hears loudly enough; what begins in one track alone is a stroke only where it is loud there. */
function heard(tracks: number, moments: Moment[]): Moment[] {
  const tops = topLevels(tracks, moments);
  return moments.filter((moment) => {
    const begins = moment.begins.filter((hop) => !Number.isNaN(hop)).length;
    const within = begins > 1 || tracks === 1 ? WEIGHT_DB : ALONE_DB;
    return tops.some((top, t) => !Number.isNaN(moment.begins[t] as number) && trackLevel(moment, t) > top - within);
  });
}

/** Of each track the level of its loudest moments: the mean of the second to fifth. */
export function topLevels(tracks: number, moments: readonly Moment[]): number[] {
  return Array.from({ length: tracks }, (_, t) => {
    const levels = moments.map((moment) => trackLevel(moment, t)).sort((p, q) => q - p);
    const some = levels.slice(1, 5).filter(Number.isFinite);
    return some.length > 0
      ? some.reduce((sum, x) => sum + x, 0) / some.length
      : (levels[0] ?? Number.NEGATIVE_INFINITY);
  });
}
