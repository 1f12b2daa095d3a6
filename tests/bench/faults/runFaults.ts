/** `npm run bench -- faults`: tries every fault on the built page, and prints what came of it. */
import { openBench } from './bench';
import type { Bench, Fault, Outcome } from './faultTypes';
import { faultOptions } from './options';
import { FAULTS } from './registry';
import { failureLines, faultTable, listLines, type Tried } from './tables';

/** two cores: files and sheets two pages at a time, what is live one alone, or it really drops audio */
const LANES = 2;
/** a trial that hangs is none, ms */
const MOST_MS = 120_000;

async function tryOne(fault: Fault, bench: Bench): Promise<Tried> {
  const from = Date.now();
  let timer: NodeJS.Timeout | undefined;
  const tooLong = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`took longer than ${MOST_MS / 1000} s`)), MOST_MS);
  });
  let outcome: Outcome | string;
  try {
    const running = fault.run(bench);
    running.catch(() => undefined);
    outcome = await Promise.race([running, tooLong]);
  } catch (thrown) {
    outcome = thrown instanceof Error ? thrown.message.split('\n')[0] || 'failed' : String(thrown);
  } finally {
    clearTimeout(timer);
  }
  return { fault, outcome, seconds: (Date.now() - from) / 1000 };
}

/** @param words of the command line, after `faults` */
export async function runFaults(words: readonly string[]): Promise<string> {
  const { kinds, only, list } = faultOptions(words);
  const chosen = FAULTS.filter(
    ({ kind, sub, name }) =>
      (kinds.length === 0 || kinds.includes(kind)) && (only === null || `${sub}: ${name}`.includes(only)),
  );
  const bench = await openBench();
  const from = Date.now();
  const all: Tried[] = [];
  try {
    const work = async (queue: Fault[]): Promise<void> => {
      for (let next = queue.shift(); next; next = queue.shift()) {
        const tried = await tryOne(next, bench);
        all.push(tried);
        console.log(`${String(all.length).padStart(3)} of ${chosen.length}  ${listLines([tried])[0]}`);
      }
    };
    const isLive = ({ kind }: Fault): boolean => kind === 'input' || kind === 'thread';
    await work(chosen.filter((fault) => isLive(fault) && !fault.heavy));
    const still = chosen.filter((fault) => !isLive(fault));
    await Promise.all(Array.from({ length: LANES }, () => work(still)));
    await work(chosen.filter((fault) => isLive(fault) && fault.heavy));
  } finally {
    await bench.close();
  }
  all.sort((one, other) => chosen.indexOf(one.fault) - chosen.indexOf(other.fault));
  const minutes = ((Date.now() - from) / 60_000).toFixed(1);
  return [...(list ? ['', ...listLines(all)] : []), faultTable(all, minutes), '', ...failureLines(all)].join('\n');
}
