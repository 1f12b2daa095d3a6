/**
 * `npm run bench [-- part …]`: prints the figures that the README quotes.
 * Parts: real takes noise demo drawn cases bound command engine network plan weight memory kit browser; and, run only when they are named,
 * moves (what is said to move and what isn't noticed, about ten minutes), ablation (each part of the engine off in turn, some minutes),
 * garbage (the collections alone, as in browser), likely (fits the weights of the likeliest delay), take (whole takes of the simulated kit with
 * fourteen microphones, with and without faults, and of the real one, about half an hour), agree (the live meter beside a take's pairs, some
 * minutes), take-browser (takes as long as a song and longer on the built page: time and memory; 1.4 GB on disk, kept in .cache, and some
 * minutes), try (what is told of a move by hand beside what it really comes to, some minutes), listening (audio thread and delay while a loop plays, five minutes) and hour (the built page in real time;
 * `-- hour --minutes 5`).
 * `faults [input thread files sheets] [--only TEXT] [--list]` tries faults on the built page (tests/bench/faults).
 * `pictures [folder] [--only TEXT]` makes pictures of every view of the built page, at every size and in every look, to be looked at.
 * `layout [--only TEXT]` sees that nothing scrolls, overlaps, is cut off, moves or is too faint, on every scene at every size.
 * `kills [number]` kills tab, renderer and browser at random moments of a round, 100 times.
 * `cases --from 12000 --cases 264` reads other cases of the simulated kit than the quoted ones, so many seeds from that one on, and no real recordings;
 * `take --from 12000 --cases 6` and `try --from 12000 --cases 66` likewise.
 * real, takes, noise, demo, drawn, cases and moves also with other values of the engine's tuning: `-- real --set delay.pick.share=0.6`,
 * `-- real noise --sweep delay.pick.share=0.6,0.75,0.9` (a run for each value).
 */

import type { TuningChanges } from '../../src/dsp/tuning/tuned';
import { ablationTable } from './ablation/ablationTable';
import { caseTables } from './cases/caseTables';
import { commandTable } from './engine/command';
import { drawnTable } from './engine/drawnScenes';
import { demoTable, noiseTable, realTable } from './engine/files';
import { engineTable } from './engine/highRate';
import { memoryTables } from './engine/memory';
import { movesTables } from './engine/moves';
import { networkTable } from './engine/network';
import { scatterOfDelay } from './engine/noiseDelay';
import { planTable } from './engine/plan';
import { takesTable } from './engine/takes';
import { runFaults } from './faults/runFaults';
import { runKills } from './kills/kills';
import { layoutTable } from './layout/layout';
import { likelyTables } from './likely/likely';
import { type BenchOptions, benchOptions } from './options';
import { garbageTable, runBrowserBench, weightTable } from './page/browser';
import { hourTable } from './page/browserHour';
import { kitTables } from './page/kitOpening';
import { listeningTable } from './page/whileListening';
import { makePictures } from './pictures/pictures';
import { table } from './table';
import { agreeTable } from './take/agreeTable';
import { takeBrowserTable } from './take/takeBrowser';
import { takeTables } from './take/takeTables';
import { tryTables } from './tryOut/tryTables';

const BOUND_DRAWS = 1000;
/** not tuned on */
const NOISE_SEEDS = [321, 322, 323, 324, 325];

function boundTable(): string {
  const rows = [10, 20, 30, 40].flatMap((snrDb) =>
    [0.3, 4.3, 48.3].map((delaySamples) => {
      const r = scatterOfDelay(snrDb, delaySamples, BOUND_DRAWS, 4711);
      return [
        snrDb,
        delaySamples,
        r.draws,
        r.rmsMicroseconds.toFixed(4),
        r.boundMicroseconds.toFixed(4),
        r.ratio.toFixed(3),
      ];
    }),
  );
  return table(
    'The correlation refined on the spectrum (tests/support/sound/stretchDelay; no reading is made so), 100 ms of noise in 100–4000 Hz',
    ['SNR dB', 'delay samples', 'draws', 'RMS µs', 'bound µs', 'ratio'],
    rows,
  );
}

type Part = (changes: TuningChanges) => string | Promise<string | undefined>;

/** These can be run with other values of the tuning. */
const TUNABLE: Record<string, Part> = {
  real: realTable,
  takes: takesTable,
  noise: (changes) => noiseTable(NOISE_SEEDS, changes),
  demo: demoTable,
  drawn: (changes) => drawnTable(5000, 5100, changes),
  cases: (changes) => caseTables(changes, range, own),
  moves: movesTables,
};
const PARTS: Record<string, Part> = {
  ...TUNABLE,
  bound: boundTable,
  command: commandTable,
  engine: engineTable,
  network: networkTable,
  plan: planTable,
  weight: weightTable,
  memory: memoryTables,
  kit: kitTables,
  browser: async () => {
    await runBrowserBench();
    return undefined;
  },
  ablation: ablationTable,
  garbage: garbageTable,
  likely: likelyTables,
  take: () => takeTables(range),
  agree: () => agreeTable(range),
  'take-browser': takeBrowserTable,
  try: () => tryTables(range),
  listening: listeningTable,
  hour: () => hourTable(minutes),
};
/** these are run only when they are named */
const LONG = ['moves', 'ablation', 'garbage', 'hour', 'likely', 'take', 'agree', 'take-browser', 'try', 'listening'];

function optionsOrExit(): BenchOptions {
  try {
    return benchOptions(process.argv.slice(2), Object.keys(PARTS), Object.keys(TUNABLE));
  } catch (error) {
    console.error((error as Error).message);
    process.exit(2);
  }
}

/** These have words of their own after their name. */
const NAMED: Record<string, (words: readonly string[]) => Promise<string>> = {
  faults: runFaults,
  kills: runKills,
  pictures: makePictures,
  layout: layoutTable,
};
const [first = '', ...rest] = process.argv.slice(2);
const named = NAMED[first];
if (named) {
  console.log(await named(rest));
  process.exit();
}

const { parts, runs, minutes, range, own } = optionsOrExit();
for (const { heading, changes } of runs) {
  if (heading !== null) console.log(`\n${heading}`);
  for (const [name, run] of Object.entries(PARTS)) {
    if (parts.length > 0 ? !parts.includes(name) : LONG.includes(name)) continue;
    const text = await run(changes);
    if (text !== undefined) console.log(text);
  }
}
