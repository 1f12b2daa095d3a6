/** `npm run bench [-- part …]`: prints the figures that the README quotes. Parts: real noise demo drawn cases bound command engine network weight memory browser. */

import { caseTables } from './cases/caseTables';
import { commandTable } from './engine/command';
import { drawnTable } from './engine/drawnScenes';
import { demoTable, noiseTable, realTable } from './engine/files';
import { engineTable } from './engine/highRate';
import { memoryTables } from './engine/memory';
import { networkTable } from './engine/network';
import { scatterOfDelay } from './engine/noiseDelay';
import { runBrowserBench, weightTable } from './page/browser';
import { table } from './table';

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

const PARTS: Record<string, () => string | Promise<string | undefined>> = {
  real: realTable,
  noise: () => noiseTable(NOISE_SEEDS),
  demo: demoTable,
  drawn: () => drawnTable(5000, 5100),
  cases: () => caseTables(),
  bound: boundTable,
  command: commandTable,
  engine: engineTable,
  network: networkTable,
  weight: weightTable,
  memory: memoryTables,
  browser: async () => {
    await runBrowserBench();
    return undefined;
  },
};

const asked = process.argv.slice(2);
const unknown = asked.filter((part) => !(part in PARTS));
if (unknown.length > 0) {
  console.error(`No such part: ${unknown.join(', ')}. There are: ${Object.keys(PARTS).join(', ')}.`);
  process.exit(2);
}
for (const [name, run] of Object.entries(PARTS)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  const text = await run();
  if (text !== undefined) console.log(text);
}
