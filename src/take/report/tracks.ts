/** The tracks of a take: laid on one beginning, and each with what is wrong with it. */
import { hearsAll, type MicGuess } from '../../advice/names/guessPair';
import { sameSignals } from '../faults/sameSignals';
import type { TakeTrack, TrackReport } from '../model';
import { levelDb, type ScannedTrack } from '../scan/levelScan';

/** One sentence, and nothing can be read of the take. */
export class TakeError extends Error {}

export interface AlignedTrack {
  sampleRate: number;
  frames: number;
  /** from the take's beginning on, which all have in common */
  read(fromFrame: number, into: Float32Array): Promise<number>;
  /** frames of silence before it begins */
  lead: number;
  track: TakeTrack;
}

export interface AlignedTake {
  sampleRate: number;
  frames: number;
  /** null: of another rate than most, or empty */
  tracks: (AlignedTrack | null)[];
  /** of each track, why it can't be read; empty: it can */
  reasons: string[];
}

/** Files that begin at different times, and say so, are laid on each other by it. @throws TakeError */
export function aligned(tracks: readonly TakeTrack[]): AlignedTake {
  const sound = tracks.filter(({ problem }) => problem === undefined);
  const sampleRate = mostFrequent(sound.map((track) => track.sampleRate));
  if (sampleRate === undefined)
    throw new TakeError('there is no track that can be read; choose audio files, WAV or FLAC.');
  const told = sound.every(({ startFrame }) => startFrame !== null);
  const starts = tracks.map(({ startFrame }) => (told ? (startFrame ?? 0) : 0));
  const first = Math.min(...starts.filter((_, t) => sound.includes(tracks[t] as TakeTrack)));
  const reasons = tracks.map((track) => {
    if (track.problem !== undefined) return track.problem;
    if (track.frames === 0) return 'There is no sound in it.';
    if (track.sampleRate === sampleRate) return '';
    return `It has ${track.sampleRate} Hz, most of the others ${sampleRate} Hz; export all at one rate.`;
  });
  const laid = tracks.map((track, t): AlignedTrack | null => {
    if (reasons[t] !== '') return null;
    const lead = (starts[t] as number) - first;
    return {
      sampleRate,
      frames: lead + track.frames,
      lead,
      track,
      async read(from, into) {
        const silent = Math.max(0, Math.min(into.length, lead - from));
        into.fill(0, 0, silent);
        if (silent === into.length) return silent;
        return silent + (await track.read(from + silent - lead, into.subarray(silent)));
      },
    };
  });
  return { sampleRate, frames: Math.max(...laid.map((track) => track?.frames ?? 0)), tracks: laid, reasons };
}

function mostFrequent(values: readonly number[]): number | undefined {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].sort((p, q) => q[1] - p[1])[0]?.[0];
}

export interface Heard {
  reports: TrackReport[];
  /** numbers of the tracks that something can be read of */
  listened: number[];
  /** pairs of tracks with one signal */
  same: [number, number][];
}

/** −80 dBFS: what a channel without a microphone carries */
const SILENT_PEAK = 1e-4;
/** runs of full-scale samples from which a track counts as clipped */
const CLIPS = 3;

/** @param scans null: it can't be read */
export function tracksOf(
  tracks: readonly Pick<TakeTrack, 'file' | 'channel'>[],
  { reasons }: Pick<AlignedTake, 'reasons'>,
  scans: readonly (ScannedTrack | null)[],
  mics: readonly MicGuess[],
): Heard {
  const reports = tracks.map(({ file, channel }, t): TrackReport => {
    const mic = mics[t] as MicGuess;
    const drum = hearsAll(mic) || mic.drum === '' ? null : mic.drum;
    const [state, reason] = stateOf(scans[t] ?? null, reasons[t] as string);
    return { file, channel, microphone: mic.label, drum, state, reason };
  });
  const listened = reports.flatMap(({ state }, t) => (state === 'ok' || state === 'clipped' ? [t] : []));
  return {
    reports,
    listened,
    same: sameSignals(listened.map((t) => scans[t] as ScannedTrack)).map(([a, b]) => [
      listened[a] as number,
      listened[b] as number,
    ]),
  };
}

/** A stroke stands out of what a track carries most of the time by more than that in some band, dB. Of noise the loudest milliseconds lie 9 dB above the middle. */
const STANDS_OUT_DB = 15;
const LOUDEST_SHARE = 0.005;

/** Nothing stands out in any band. */
function isSteady({ bands, hops }: ScannedTrack): boolean {
  return bands.every((band) => {
    const counts = new Uint32Array(256);
    for (const level of band) counts[level] = (counts[level] as number) + 1;
    const levelAt = (share: number): number => {
      let sum = 0;
      for (let level = 0; level < 256; level++) {
        sum += counts[level] as number;
        if (sum >= share * hops) return levelDb(level);
      }
      return levelDb(255);
    };
    return levelAt(1 - LOUDEST_SHARE) - levelAt(0.5) < STANDS_OUT_DB;
  });
}

function stateOf(scanned: ScannedTrack | null, reason: string): [TrackReport['state'], string] {
  if (scanned === null) return ['unreadable', reason];
  if (scanned.peak < SILENT_PEAK) return ['silent', 'It is silent: is the mic plugged in, and the track armed?'];
  if (isSteady(scanned)) return ['silent', 'It hears no hit, only noise: is the mic plugged in, and the track armed?'];
  if (scanned.clips >= CLIPS)
    return [
      'clipped',
      `It reaches full scale ${scanned.clips} times: turn its gain down, and record these hits again.`,
    ];
  return ['ok', ''];
}
