/** Third step, for each drum by itself: its pairs, from the same hits. */
import { Rooms } from '../../dsp/signal/room';
import type { Reading } from '../../reading/reading';
import { pitchHz } from '../hits/pitch';
import type { DrumReport, PairReport } from '../model';
import { stemOf } from '../names';
import { pieceLengths, strokeBegin } from '../pairs/pieces';
import { plausible } from '../pairs/plausible';
import { type PairHits, readPair } from '../pairs/readPair';
import { type ReadPair, readOf } from '../pairs/readWhole';
import type { AlignedTrack } from '../report/tracks';
import { settled } from '../together/settled';
import { AttackCuts } from './attackCuts';
import { goOn } from './cancelled';
import type { DrumTask } from './labelHits';
import { PieceStore } from './pieces';

/** around where the levels rise, hops */
const BEGIN_FROM = 3;
const BEGIN_TO = 30;

export interface ReadDrum {
  report: DrumReport;
  /** of each of its pairs the reading whole, and where its hits lie */
  pairs: ReadPair[];
}

/**
 * @param files of each track its name
 * @param onShare how much of it is read, 0–1
 * @throws TakeCancelled; whatever the tracks come with
 */
export async function readDrum(
  task: DrumTask,
  tracks: readonly (AlignedTrack | null)[],
  files: readonly string[],
  onShare: (share: number) => void = () => undefined,
  isCancelled?: () => boolean,
): Promise<ReadDrum> {
  const { drum, sampleRate, starts, hopFrames, own, temperatureC } = task;
  const fileOf = (t: number): string => files[t] as string;
  const lengths = pieceLengths(sampleRate);
  const store = new PieceStore(tracks, starts, lengths.frames, isCancelled);
  const rooms = new Rooms();
  const begins = new Map<number, number[]>();
  const beginsIn = (t: number, pieces: readonly Float32Array[]): number[] => {
    let begin = begins.get(t);
    if (!begin) {
      const from = lengths.beforeFrames - BEGIN_FROM * hopFrames;
      const to = lengths.beforeFrames + BEGIN_TO * hopFrames;
      begin = pieces.map((piece) => strokeBegin(piece, sampleRate, from, to));
      begins.set(t, begin);
    }
    return begin;
  };
  const pairs: PairReport[] = [];
  const whole: ReadPair[] = [];
  const cuts = new AttackCuts(lengths, sampleRate);
  for (const { a, b, kind, far } of task.pairs) {
    goOn(isCancelled);
    const [piecesA, piecesB] = [await store.of(a), await store.of(b)];
    cuts.keep(fileOf(a), piecesA);
    cuts.keep(fileOf(b), piecesB);
    const hits: PairHits = {
      sampleRate,
      lengths,
      hits: beginsIn(a, piecesA).map((begin, i) => ({ begin, pieceSeconds: (starts[i] as number) / sampleRate })),
      a: piecesA,
      b: piecesB,
      kind,
      far,
      temperatureC,
      drumName: drum,
      labels: [stemOf(fileOf(a)), stemOf(fileOf(b))],
    };
    const ends = { a: fileOf(a), b: fileOf(b), kind, from: 'hits' as const };
    const keep = (reading: Reading): void => void whole.push(readOf({ drum, ...ends }, hits, reading));
    pairs.push({ ...ends, ...readPair(hits, keep, rooms) });
    onShare(pairs.length / task.pairs.length);
  }
  const ownBegins = own === null ? undefined : begins.get(own);
  const heardBy = cuts.heardBy(begins.get(own ?? task.pairs[0]?.a ?? -1) ?? []);
  const together = settled(pairs, whole, heardBy, temperatureC);
  const report: DrumReport = {
    drum,
    ownTrack: own === null ? null : fileOf(own),
    pitchHz: own === null || !ownBegins ? null : pitchHz(await store.of(own), ownBegins, sampleRate),
    hits: task.hits,
    hitsUsable: task.hitsUsable,
    pairs: together.pairs,
  };
  return { report: plausible(report, task.close.map(fileOf)), pairs: together.whole };
}
