/** Second step: from what was heard of all tracks, who was struck when, and what is to be read of each drum. */
import { hearsAll, kindBetween, type MicGuess } from '../../advice/names/guessPair';
import type { PairKindId } from '../../advice/plan/pairKinds';
import { type CloseTrack, closeTracks } from '../faults/sharedSounds';
import { hitsOfDrum } from '../hits/chosen';
import { type Moment, momentsOf } from '../hits/events';
import { type KitDrum, tiltDb } from '../hits/kitDrums';
import { type Strike, type Struck, strikesOf } from '../hits/strikes';
import type { HitReport, TakeTrack } from '../model';
import { pieceLengths } from '../pairs/pieces';
import { ownTrack, pairsOf } from '../pairs/planPairs';
import { type Heard, tracksOf } from '../report/tracks';
import type { ScannedTrack } from '../scan/levelScan';

/** What is read of one drum, in plain values: who reads it needs the tracks besides, and nothing else. */
export interface DrumTask {
  drum: string;
  sampleRate: number;
  temperatureC: number;
  /** all of its hits, and those struck alone */
  hits: number;
  hitsUsable: number;
  /** frame of the take at which each hit's piece begins */
  starts: number[];
  /** frames between two levels */
  hopFrames: number;
  /** number of the track that is close to it; null: none is */
  own: number | null;
  /** numbers of all tracks that are close to it */
  close: number[];
  pairs: PairTask[];
}

export interface PairTask {
  /** numbers of tracks */
  a: number;
  b: number;
  kind: PairKindId;
  /** one of the two hears the whole kit, or nobody knows where it stands */
  far: boolean;
}

export interface LabelledHits {
  heard: Heard;
  hits: HitReport[];
  /** one a drum, in the report's order */
  tasks: DrumTask[];
  /** of each drum's own track how much more it hears of the lows than of the top, dB; null: nobody knows */
  tiltsDb: (number | null)[];
  /** tracks that are called after a drum, and what each hears closest */
  close: CloseTrack[];
}

const MS = 1000;

/** Plain values. */
export interface HeardTracks {
  tracks: readonly Pick<TakeTrack, 'file' | 'channel'>[];
  /** of each track, what its name says */
  mics: readonly MicGuess[];
  sampleRate: number;
  /** of each track, why it can't be read; empty: it can */
  reasons: string[];
  /** of each track; null: it can't be read */
  scans: readonly (ScannedTrack | null)[];
  temperatureC: number;
}

export function labelHits(all: HeardTracks): LabelledHits {
  const { tracks, mics, sampleRate, scans, temperatureC } = all;
  const heard = tracksOf(tracks, all, scans, mics);
  const scanned = heard.listened.map((t) => scans[t] as ScannedTrack);
  const moments = momentsOf(scanned);
  const listening = heard.listened.map((t) => mics[t] as MicGuess);
  const struck = strikesOf(
    moments,
    listening.map((mic) => ({ drum: hearsAll(mic) ? '' : mic.drum })),
  );
  const hopSeconds = scanned[0] ? scanned[0].hopFrames / scanned[0].sampleRate : 0;
  const room: Room = { heard, mics: listening, moments, struck, sampleRate, temperatureC };
  return {
    heard,
    hits: struck.strikes.map((strike) => ({
      timeSeconds: Math.round(strike.hop * hopSeconds * MS) / MS,
      drums: strike.drums.map((d) => (struck.drums[d] as KitDrum).name),
    })),
    tasks: struck.drums.map((_, d) => taskOf(d, room)),
    tiltsDb: struck.drums.map((drum) => {
      const own = ownTrack(drum, listening);
      const shape = drum.sounds[0]?.shape;
      return own === null || !shape ? null : tiltDb(shape, own);
    }),
    close: closeTracks(struck.drums, heard.listened, mics),
  };
}

interface Room {
  heard: Heard;
  /** of the tracks that are listened to */
  mics: readonly MicGuess[];
  moments: readonly Moment[];
  struck: Struck;
  sampleRate: number;
  temperatureC: number;
}

function taskOf(d: number, { heard, mics, moments, struck, sampleRate, temperatureC }: Room): DrumTask {
  const drum = struck.drums[d] as KitDrum;
  const { all, alone, read } = hitsOfDrum(struck.strikes, d);
  const planned = pairsOf(
    drum,
    mics,
    read.map((i) => moments[i] as Moment),
  );
  const hopFrames = Math.max(1, Math.round(sampleRate / 1000));
  const { beforeFrames } = pieceLengths(sampleRate);
  const own = ownTrack(drum, mics);
  const trackOf = (t: number): number => heard.listened[t] as number;
  return {
    drum: drum.name,
    sampleRate,
    temperatureC,
    hits: all.length,
    hitsUsable: alone.length,
    starts: read.map((i) => (struck.strikes[i] as Strike).hop * hopFrames - beforeFrames),
    hopFrames,
    own: own === null ? null : trackOf(own),
    close: drum.own.map(trackOf),
    pairs: planned.map(({ a, b }): PairTask => {
      const [micA, micB] = [mics[a] as MicGuess, mics[b] as MicGuess];
      const far = [micA, micB].some((mic) => hearsAll(mic) || mic.label === '');
      return { a: trackOf(a), b: trackOf(b), kind: kindBetween(micA, micB), far };
    }),
  };
}
