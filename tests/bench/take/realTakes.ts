/** The takes of a real kit read as takes; only what two looks agree on is judged. */
import { readTake } from '../../../src/take/readTake';
import { takeTracks } from '../../support/take/takeTracks';
import { TAKES, takeTrack, takeTruth } from '../engine/takes';
import { type JudgedTake, judgeTake, type KnownTake } from './judgeTake';

export interface RealTake extends JudgedTake {
  take: string;
  firm: number;
  /** firm pairs that the report doesn't hold */
  absent: string[];
  faults: string[];
}

const fileOf = (track: string): string => `${track}.wav`;

export async function readRealTakes(): Promise<RealTake[]> {
  const read: RealTake[] = [];
  for (const take of TAKES) {
    const { drums, hits } = takeTruth(take);
    const names = [...new Set(drums.flatMap(({ ownTrack, others }) => [ownTrack, ...Object.keys(others)]))].sort();
    const tracks = names.map((name) => takeTrack(take, name));
    const sounds = tracks.map(({ x }) => x);
    const report = await readTake(takeTracks(names.map(fileOf), sounds, tracks[0].sampleRate));
    const known: KnownTake = {
      hits,
      pair(name, a, b) {
        const drum = drums.find((one) => one.drum === name);
        const [turned, other] = drum && fileOf(drum.ownTrack) === b ? [true, a] : [false, b];
        if (!drum || fileOf(drum.ownTrack) !== (turned ? b : a)) return 'unknown';
        const found = Object.entries(drum.others).find(([track]) => fileOf(track) === other)?.[1];
        if (!found?.firm) return 'unknown';
        const { delaySamples, polarity, toleranceSamples } = found;
        return { delaySamples: turned ? -delaySamples : delaySamples, polarity, toleranceSamples };
      },
    };
    const judged = judgeTake(report, known);
    const firm = drums.flatMap(({ drum, ownTrack, others }) =>
      Object.entries(others).flatMap(([other, { firm }]) => (firm ? [{ drum, a: ownTrack, b: other }] : [])),
    );
    const isOf = (pair: { drum: string; a: string; b: string }, one: (typeof firm)[0]): boolean =>
      pair.drum === one.drum && [pair.a, pair.b].sort().join() === [one.a, one.b].map(fileOf).sort().join();
    read.push({
      take,
      ...judged,
      // of the others nothing is known
      pairs: judged.pairs.filter((pair) => firm.some((one) => isOf(pair, one))),
      firm: firm.length,
      absent: firm
        .filter((one) => !judged.pairs.some((pair) => isOf(pair, one)))
        .map(({ drum, a, b }) => `${drum}: ${a} – ${b}`),
      faults: report.faults.map(({ kind, files }) => `${kind}: ${files.join(', ')}`),
    });
  }
  return read;
}
