/** How the live meter and the take agree on the same pairs, over simulated takes. */
import { readTake } from '../../../src/take/readTake';
import { liveBesideTake } from '../../support/take/liveBesideTake';
import { renderTake } from '../../support/take/renderTake';
import { drawTake } from '../../support/take/simulatedKit';
import { truthOfTake } from '../../support/take/simulatedTruth';
import { takeTracks } from '../../support/take/takeTracks';
import type { BenchOptions } from '../options';
import { table } from '../table';

/** not tuned on */
const FROM = 20_000;
const CASES = 4;

export async function agreeTable({ from = FROM, cases = CASES }: BenchOptions['range']): Promise<string> {
  const rows: (string | number)[][] = [];
  for (let seed = from; seed < from + cases; seed++) {
    const made = drawTake(seed);
    const tracks = renderTake(made);
    const { files, hits } = truthOfTake(made);
    const report = await readTake(takeTracks(files, tracks, made.sampleRate));
    const byFile = new Map(files.map((file, t) => [file, tracks[t]]));
    const said = liveBesideTake(report, byFile, ({ drum }) =>
      hits.filter((hit) => hit.drum === drum).map(({ seconds }) => seconds),
    );
    const both = said.filter(({ agree }) => agree !== null);
    const answered = (one: (typeof said)[0]): [live: boolean, take: boolean] => [
      one.liveSamples !== null,
      one.pair.delaySamples !== null,
    ];
    rows.push([
      seed,
      said.length,
      both.length,
      both.filter(({ agree }) => agree === false).length,
      said.filter((one) => answered(one).join() === 'true,false').length,
      said.filter((one) => answered(one).join() === 'false,true').length,
    ]);
  }
  return table(
    'The live meter and the take on the same pairs of simulated takes, drum after drum',
    ['seed', 'pairs', 'both answer', 'they disagree', 'live only', 'take only'],
    rows,
  );
}
