/** Tracks with each other's names: a low tom in the track of the high one, a kick in the snare's, an overhead that hears after the rooms. */
import type { MicGuess } from '../../advice/names/guessPair';
import type { DrumReport, Fault } from '../model';
import { delaysBetween, type TimedTracks } from './late';
import { type CloseTrack, swappedBySound } from './sharedSounds';

/** What the microphone close to a drum hears of it. */
export interface OwnSound {
  /** number of the track */
  track: number;
  /** as the track is called */
  drum: string;
  /** Hz of the note that it rings on; null: none */
  pitchHz: number | null;
  /** level above 2 kHz re that below 500 Hz, dB */
  tiltDb: number;
}

/** one note is lower than another from that ratio on: a third of an octave lies between toms; common practice, no source */
const LOWER = 0.9;
/** dB of tilt by which two drums sound clearly unlike */
const CLEARLY_DB = 8;
/** a room that hears the drums earlier than an overhead by so much, s: 34 cm */
const EARLIER_SECONDS = 0.001;
const EARLIER_SHARE = 0.75;
const LEAST_DRUMS = 2;

/**
 * @param close tracks called after a drum, with what they hear closest
 * @returns at most one swap of close microphones: two names that, exchanged, set all in order; and overheads with rooms
 */
export function swappedTracks(
  drums: readonly DrumReport[],
  sounds: readonly OwnSound[],
  tracks: TimedTracks,
  close: readonly CloseTrack[] = [],
): Fault[] {
  const [found] = [...sharedSwap(close, tracks.files), ...closeSwap(sounds, tracks.files, close)];
  return [...(found ? [found] : []), ...farSwaps(drums, tracks)];
}

function sharedSwap(close: readonly CloseTrack[], files: readonly string[]): Fault[] {
  const swap = swappedBySound(close);
  if (swap === null) return [];
  const [odd, other] = swap.map((t) => files[t] as string) as [string, string];
  const drumOf = (t: number): string => close.find(({ track }) => track === t)?.drum ?? '';
  const drum = drumOf(swap[0]);
  const mates = close.filter((one) => one.drum === drum && one.track !== swap[0]).map(({ track }) => files[track]);
  return [
    swapOf(
      odd,
      other,
      `${other} hears the drum closest that ${mates.join(' and ')} ${mates.length > 1 ? 'hear' : 'hears'} closest, ${odd} another one.`,
    ),
  ];
}

const swapOf = (one: string, two: string, why: string): Fault => ({
  kind: 'swapped',
  files: [one, two],
  samples: null,
  text: `${one} and ${two} seem to have each other’s names: ${why} Listen to both, and rename them.`,
});

function closeSwap(sounds: readonly OwnSound[], files: readonly string[], close: readonly CloseTrack[]): Fault[] {
  const before = disorder(sounds).length;
  if (before === 0) return [];
  const swaps = sounds.flatMap((p, i) =>
    sounds.slice(i + 1).map((q) => {
      const named = sounds.map((one) => {
        if (one === p) return { ...p, drum: q.drum };
        return one === q ? { ...q, drum: p.drum } : one;
      });
      return { p, q, left: disorder(named).length, order: orderOf(named) };
    }),
  );
  // of those that set as much in order the one by which names and sounds fit best over all
  const best = swaps.sort((one, two) => one.left - two.left || two.order - one.order)[0];
  if (!best || best.left >= before) return [];
  const { p, q } = best;
  const [one, two] = [whichOf(p, q, close), whichOf(q, p, close)];
  return one === null || two === null ? [] : [swapOf(files[one] as string, files[two] as string, evidence(p, q))];
}

/**
 * Of a drum with several microphones the one that isn't at it: another of them hears closest what the other swapped track does, and it
 * doesn't. @returns null: nobody knows which
 */
function whichOf({ drum, track }: OwnSound, other: OwnSound, close: readonly CloseTrack[]): number | null {
  const own = close.filter((one) => one.drum === drum);
  if (own.length < 2) return track;
  const theirs = close.find((one) => one.track === other.track)?.closest ?? null;
  if (theirs === null) return null;
  const odd = own.filter(({ closest }) => closest !== null && closest !== theirs);
  return odd.length === 1 && own.some(({ closest }) => closest === theirs) ? (odd[0] as CloseTrack).track : null;
}

/** how much one pair of drums counts at most: half an octave of pitch, or so many dB of tilt */
const MOST_OCTAVES = 0.5;
const MOST_TILT_DB = 16;

/** How well names and sounds fit: over all pairs of drums by how much the one called lower is lower, the one called duller duller. */
function orderOf(sounds: readonly OwnSound[]): number {
  const limited = (x: number): number => Math.max(-1, Math.min(1, x));
  let sum = 0;
  for (const p of sounds)
    for (const q of sounds) {
      // a kick is the lowest as a rule, which alone proves nothing: it may ring on its second note
      const [low, high] = [p, q].map(({ drum }) => (drum === 'kick' ? 0 : noteRank(drum))) as [
        number | null,
        number | null,
      ];
      if (low !== null && high !== null && low < high && p.pitchHz !== null && q.pitchHz !== null)
        sum += limited(Math.log2(q.pitchHz / p.pitchHz) / MOST_OCTAVES);
      if (brightness(p.drum) < brightness(q.drum)) sum += limited((q.tiltDb - p.tiltDb) / MOST_TILT_DB);
    }
  return sum;
}

function evidence(p: OwnSound, q: OwnSound): string {
  const [low, high] = (noteRank(p.drum) ?? 0) < (noteRank(q.drum) ?? 0) ? [p, q] : [q, p];
  if (noteRank(p.drum) !== null && noteRank(q.drum) !== null && low.pitchHz !== null && high.pitchHz !== null)
    return `in the track called ${low.drum} a drum rings at ${Math.round(low.pitchHz)} Hz, in that called ${high.drum} at ${Math.round(high.pitchHz)} Hz, which is lower.`;
  const [dull, bright] = brightness(p.drum) < brightness(q.drum) ? [p, q] : [q, p];
  return `the track called ${dull.drum} sounds brighter than that called ${bright.drum}.`;
}

/** Pairs of drums that sound the other way round than they are called. */
function disorder(sounds: readonly OwnSound[]): [OwnSound, OwnSound][] {
  return sounds.flatMap((p, i) =>
    sounds.slice(i + 1).flatMap((q): [OwnSound, OwnSound][] => (isWrong(p, q) || isWrong(q, p) ? [[p, q]] : [])),
  );
}

/** p is called the lower, or duller, drum and is the higher, or brighter. */
function isWrong(p: OwnSound, q: OwnSound): boolean {
  const [lower, higher] = [noteRank(p.drum), noteRank(q.drum)];
  if (lower !== null && higher !== null && lower < higher && p.pitchHz !== null && q.pitchHz !== null)
    return q.pitchHz < LOWER * p.pitchHz;
  return brightness(p.drum) < brightness(q.drum) && p.tiltDb > q.tiltDb + CLEARLY_DB;
}

/** Low to high; of toms the first is the highest. Common practice, no source. Null: it is no note that tells it (a kick may ring on its second). */
function noteRank(drum: string): number | null {
  if (/floor/.test(drum)) return 10 - numberOf(drum) / 10;
  if (/low/.test(drum)) return 11;
  if (/mid/.test(drum)) return 12;
  if (/high/.test(drum)) return 14;
  if (/tom/.test(drum)) return 13 - numberOf(drum) / 10;
  return null;
}

const numberOf = (drum: string): number => Number(/\d+/.exec(drum)?.[0] ?? 0);

/** Dull to bright; a kick's beater may be brighter than a tom. */
function brightness(drum: string): number {
  if (drum === 'kick' || /tom/.test(drum)) return 1;
  return drum === 'snare' ? 2 : 3;
}

function farSwaps(drums: readonly DrumReport[], { files, mics, sampleRate }: TimedTracks): Fault[] {
  const at = (place: MicGuess['place']): number[] => files.flatMap((_, t) => (mics[t]?.place === place ? [t] : []));
  return at('overhead').flatMap((o) =>
    at('room').flatMap((r): Fault[] => {
      const [overhead, room] = [files[o] as string, files[r] as string];
      const delays = delaysBetween(drums, overhead, room);
      const earlier = delays.filter((delay) => delay < -EARLIER_SECONDS * sampleRate).length;
      if (delays.length < LEAST_DRUMS || earlier < EARLIER_SHARE * delays.length) return [];
      return [
        {
          kind: 'swapped',
          files: [overhead, room],
          samples: null,
          text: `${room} hears the drums earlier than ${overhead}: these two seem to have each other’s names. Listen to both, and rename them.`,
        },
      ];
    }),
  );
}
