/** What is asked of the bench on its command line: parts, and values of the engine's tuning that they are run with. */
import { type TuningChanges, tuned, tuningParts } from '../../src/dsp/tuning/tuned';
import { QUOTED_SEEDS, TUNING_SEEDS } from '../cases/case';

/** One run of the parts: a heading (none where nothing is changed), and what is changed. */
export interface BenchRun {
  heading: string | null;
  changes: TuningChanges;
}

export interface BenchOptions {
  parts: string[];
  runs: BenchRun[];
  /** of what runs in real time */
  minutes: number;
  /** of the simulated kit: the first seed and how many cases; absent: those that are quoted */
  range: { from?: number; cases?: number };
  /** of the cases: without the usual methods beside, in half the time */
  own: boolean;
}

const MINUTES = 60;

/**
 * `[part …] [--set PATH=VALUE …] [--sweep PATH=VALUE,VALUE,…] [--minutes N] [--from SEED] [--cases N] [--own]`: with a sweep a run for each value.
 * @throws RangeError, TypeError where a word is no part, no path or no value, or a part can't be tuned
 */
export function benchOptions(
  words: readonly string[],
  all: readonly string[],
  tunable: readonly string[],
): BenchOptions {
  const parts: string[] = [];
  const set: Record<string, number | boolean> = {};
  let minutes = MINUTES;
  let own = false;
  const range: BenchOptions['range'] = {};
  let sweep: { path: string; values: (number | boolean)[] } | null = null;
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as string;
    if (word === '--set') {
      const [path, value] = assignment(words[++i]);
      set[path] = parsed(path, value);
    } else if (word === '--sweep') {
      if (sweep) throw new RangeError('One --sweep at a time.');
      const [path, values] = assignment(words[++i]);
      sweep = { path, values: values.split(',').map((value) => parsed(path, value)) };
    } else if (word === '--minutes') {
      minutes = Number(words[++i]);
      if (!(Number.isInteger(minutes) && minutes > 0)) throw new RangeError('--minutes takes a whole number above 0.');
    } else if (word === '--own') own = true;
    else if (word === '--from') {
      const from = Number(words[++i] ?? Number.NaN);
      if (!Number.isInteger(from) || from < TUNING_SEEDS.from || from > QUOTED_SEEDS.to)
        throw new RangeError(`--from takes a seed, ${TUNING_SEEDS.from} to ${QUOTED_SEEDS.to}.`);
      range.from = from;
    } else if (word === '--cases') {
      const cases = Number(words[++i]);
      if (!(Number.isInteger(cases) && cases > 0)) throw new RangeError('--cases takes a whole number above 0.');
      range.cases = cases;
    } else parts.push(word);
  }
  const unknown = parts.filter((part) => !all.includes(part));
  if (unknown.length > 0) throw new RangeError(`No such part: ${unknown.join(', ')}. There are: ${all.join(', ')}.`);
  const changed = sweep !== null || Object.keys(set).length > 0;
  if (changed && (parts.length === 0 || parts.some((part) => !tunable.includes(part))))
    throw new RangeError(`Values can be tried on: ${tunable.join(', ')}. Name the parts.`);
  const runs = (sweep ? sweep.values : [null]).map((value): BenchRun => {
    const changes = sweep && value !== null ? { ...set, [sweep.path]: value } : { ...set };
    // an unknown path, or a value of the wrong type, is told before anything is run
    tuned(changes);
    const told = Object.entries(changes).map(([path, v]) => `${path} = ${v}`);
    return { heading: told.length > 0 ? `With ${told.join(', ')}` : null, changes };
  });
  return { parts, runs, minutes, range, own };
}

function assignment(word: string | undefined): [path: string, value: string] {
  const match = /^([^=]+)=(.+)$/.exec(word ?? '');
  if (!match) throw new RangeError(`Expected PATH=VALUE but had ${word ?? 'nothing'}.`);
  return [match[1] as string, match[2] as string];
}

function parsed(path: string, text: string): number | boolean {
  if (tuningParts().includes(path) && (text === 'true' || text === 'false')) return text === 'true';
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (Number.isNaN(value)) throw new TypeError(`${path} can't be "${text}".`);
  return value;
}
