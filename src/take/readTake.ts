/** A whole take: listened to once, track by track; then every drum's pairs from the same hits. */

import { guessMic, hearsAll, kindBetween, type MicGuess } from '../advice/names/guessPair';
import { pathCm } from '../reading/acoustics';
import { faultsOf } from './faults/faults';
import type { OwnSound } from './faults/swapped';
import { hitsOfDrum } from './hits/chosen';
import { type Moment, momentsOf } from './hits/events';
import { type KitDrum, tiltDb } from './hits/kitDrums';
import { pitchHz } from './hits/pitch';
import { type Strike, type Struck, strikesOf } from './hits/strikes';
import type { DrumReport, PairReport, TakeProgress, TakeReport, TakeTrack } from './model';
import { stemOf } from './names';
import { cutPieces } from './pairs/cutPieces';
import { pieceLengths, strokeBegin } from './pairs/pieces';
import { ownTrack, pairsOf } from './pairs/planPairs';
import { plausible } from './pairs/plausible';
import { type PairHits, readPair } from './pairs/readPair';
import { type ReadPair, readOf } from './pairs/readWhole';
import { switchesOf } from './report/switches';
import { aligned, type Heard, tracksOf } from './report/tracks';
import { LevelScan, type ScannedTrack } from './scan/levelScan';

export interface TakeOptions {
  temperatureC?: number;
  /** what a track's name says; guessed unless told */
  mics?: readonly (MicGuess | null)[];
  onProgress?: (progress: TakeProgress) => void;
  /** a drum's pairs are read: what is wrong with the whole comes at the end */
  onDrum?: (drum: DrumReport) => void;
  /** a pair is read: its reading whole, and where its hits lie */
  onPair?: (pair: ReadPair) => void;
  /** looked at now and then: true ends it with a TakeCancelled */
  isCancelled?: () => boolean;
}

/** Somebody has pressed Cancel. */
export class TakeCancelled extends Error {}

function goOn(isCancelled: TakeOptions['isCancelled']): void {
  if (isCancelled?.()) throw new TakeCancelled('cancelled');
}

const SLICE_FRAMES = 1 << 16;
/** how much of the time listening takes, of listening and reading */
const SCAN_SHARE = 0.6;
const MS = 1000;

/** @throws TakeError where nothing can be read of it; TakeCancelled; whatever the tracks come with */
export async function readTake(given: readonly TakeTrack[], options: TakeOptions = {}): Promise<TakeReport> {
  const { temperatureC = 20, onProgress = () => undefined, isCancelled } = options;
  const mics = given.map(({ file }, t) => options.mics?.[t] ?? guessMic(stemOf(file)));
  const take = aligned(given);
  const scans: (ScannedTrack | null)[] = [];
  for (const [t, track] of take.tracks.entries()) {
    onProgress({ share: (SCAN_SHARE * t) / take.tracks.length, doing: `Listening to ${given[t]?.file}` });
    scans.push(track === null ? null : await scan(track, isCancelled).catch((thrown) => leftOut(thrown, take, t)));
  }
  const heard = tracksOf(given, take, scans, mics);
  const scanned = heard.listened.map((t) => scans[t] as ScannedTrack);
  const moments = momentsOf(scanned);
  const ears = heard.listened.map((t) => ({ drum: hearsAll(mics[t] as MicGuess) ? '' : (mics[t] as MicGuess).drum }));
  const struck = strikesOf(moments, ears);
  const drums: DrumReport[] = [];
  for (const [d, drum] of struck.drums.entries()) {
    goOn(isCancelled);
    const share = SCAN_SHARE + ((1 - SCAN_SHARE) * d) / struck.drums.length;
    onProgress({ share, doing: `Reading the ${drum.name}` });
    const read = await readDrum(d, {
      given,
      take,
      heard,
      mics,
      moments,
      struck,
      temperatureC,
      isCancelled,
      onPair: options.onPair,
    });
    drums.push(read);
    options.onDrum?.(read);
  }
  const hopSeconds = scanned[0] ? scanned[0].hopFrames / scanned[0].sampleRate : 0;
  const faults = faultsOf({
    tracks: heard.reports,
    drums,
    same: heard.same,
    sounds: struck.drums.flatMap((drum, d) => ownSound(drum, heard.listened, mics, drums[d] as DrumReport)),
    files: given.map(({ file }) => file),
    mics,
    sampleRate: take.sampleRate,
    cmPerSecond: pathCm(1, temperatureC),
  });
  return {
    sampleRate: take.sampleRate,
    durationSeconds: take.frames / take.sampleRate,
    tracks: heard.reports,
    hits: struck.strikes.map((strike) => ({
      timeSeconds: Math.round(strike.hop * hopSeconds * MS) / MS,
      drums: strike.drums.map((d) => (struck.drums[d] as KitDrum).name),
    })),
    drums,
    faults,
    polarities: switchesOf(drums, heard.reports),
  };
}

/** A file that turns out to be damaged is left out, and the rest is read. */
function leftOut(thrown: unknown, { reasons }: ReturnType<typeof aligned>, t: number): null {
  if (thrown instanceof TakeCancelled) throw thrown;
  reasons[t] = thrown instanceof Error ? thrown.message : String(thrown);
  return null;
}

function ownSound(
  drum: KitDrum,
  listened: readonly number[],
  mics: readonly MicGuess[],
  { pitchHz }: DrumReport,
): OwnSound[] {
  const own = ownTrack(
    drum,
    listened.map((t) => mics[t] as MicGuess),
  );
  const shape = drum.sounds[0]?.shape;
  if (own === null || !shape) return [];
  return [{ track: listened[own] as number, drum: drum.name, pitchHz, tiltDb: tiltDb(shape, own) }];
}

type AlignedTrack = NonNullable<ReturnType<typeof aligned>['tracks'][number]>;

async function scan(track: AlignedTrack, isCancelled: TakeOptions['isCancelled']): Promise<ScannedTrack> {
  const levels = new LevelScan(track.sampleRate, track.frames);
  const slice = new Float32Array(SLICE_FRAMES);
  for (let from = 0; from < track.frames; ) {
    goOn(isCancelled);
    const n = await track.read(from, slice);
    if (n === 0) break;
    levels.push(n === slice.length ? slice : slice.subarray(0, n));
    from += n;
  }
  return levels.end();
}

interface DrumInputs {
  given: readonly TakeTrack[];
  take: ReturnType<typeof aligned>;
  heard: Heard;
  mics: readonly MicGuess[];
  moments: readonly Moment[];
  struck: Struck;
  temperatureC: number;
  isCancelled: TakeOptions['isCancelled'];
  onPair: TakeOptions['onPair'];
}

async function readDrum(d: number, inputs: DrumInputs): Promise<DrumReport> {
  const { given, take, heard, mics, moments, struck, temperatureC, isCancelled, onPair } = inputs;
  const drum = struck.drums[d] as KitDrum;
  const { all, alone, read } = hitsOfDrum(struck.strikes, d);
  const trackOf = (t: number): number => heard.listened[t] as number;
  const fileOf = (t: number): string => (given[trackOf(t)] as TakeTrack).file;
  const micOf = (t: number): MicGuess => mics[trackOf(t)] as MicGuess;
  const planned = pairsOf(
    drum,
    heard.listened.map((t) => mics[t] as MicGuess),
    read.map((i) => moments[i] as Moment),
  );
  const { sampleRate } = take;
  const lengths = pieceLengths(sampleRate);
  const hopFrames = Math.max(1, Math.round(sampleRate / 1000));
  const starts = read.map((i) => (struck.strikes[i] as Strike).hop * hopFrames - lengths.beforeFrames);
  const needed = new Set(planned.flatMap(({ a, b }) => [a, b]));
  const pieces = new Map<number, Float32Array[]>();
  for (const t of needed)
    pieces.set(
      t,
      await cutPieces(take.tracks[trackOf(t)] as AlignedTrack, starts, lengths.frames, () => goOn(isCancelled)),
    );
  const pairs: PairReport[] = [];
  const begins = new Map<number, number[]>();
  for (const { a, b } of planned) {
    const piecesA = pieces.get(a) as Float32Array[];
    let begin = begins.get(a);
    if (!begin) {
      const from = lengths.beforeFrames - 3 * hopFrames;
      begin = piecesA.map((piece) => strokeBegin(piece, sampleRate, from, lengths.beforeFrames + 30 * hopFrames));
      begins.set(a, begin);
    }
    const far = [a, b].some((t) => hearsAll(micOf(t)) || micOf(t).label === '');
    const kind = kindBetween(micOf(a), micOf(b));
    const hits: PairHits = {
      sampleRate,
      lengths,
      hits: begin.map((frame, i) => ({ begin: frame, pieceSeconds: (starts[i] as number) / sampleRate })),
      a: piecesA,
      b: pieces.get(b) as Float32Array[],
      kind,
      far,
      temperatureC,
      drumName: drum.name,
      labels: [stemOf(fileOf(a)), stemOf(fileOf(b))],
    };
    const ends = { a: fileOf(a), b: fileOf(b), kind };
    const measured = readPair(hits, (reading) => onPair?.(readOf({ drum: drum.name, ...ends }, hits, reading)));
    pairs.push({ ...ends, ...measured });
  }
  const own = ownTrack(
    drum,
    heard.listened.map((t) => mics[t] as MicGuess),
  );
  const ownBegins = own === null ? undefined : begins.get(own);
  const pitch = own === null || !ownBegins ? null : pitchHz(pieces.get(own) as Float32Array[], ownBegins, sampleRate);
  const report: DrumReport = {
    drum: drum.name,
    ownTrack: own === null ? null : fileOf(own),
    pitchHz: pitch,
    hits: all.length,
    hitsUsable: alone.length,
    pairs,
  };
  return plausible(report, drum.own.map(fileOf));
}
