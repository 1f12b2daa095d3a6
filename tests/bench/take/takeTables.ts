/** Whole takes: how many hits get their drum, how many pairs an answer, which of them are wrong, and which planted faults are named. */
import { fileURLToPath } from 'node:url';
import { QUOTED_SEEDS } from '../../cases/case';
import { runJobs } from '../cases/runJobs';
import { TAKES_ABSENT, takesHere } from '../engine/takes';
import { table } from '../table';
import { faultTables } from './faultTables';
import type { JudgedHits, JudgedPair } from './judgeTake';
import { type RealTake, readRealTakes } from './realTakes';
import type { TakeJob, TakeResult } from './takeJob';

const WORKER = fileURLToPath(new URL('./takeWorker.ts', import.meta.url));
const CASES = 50;
/** every so many takes one ends with a groove */
const GROOVE_EVERY = 3;

/** @param range the first seed, and how many; with either given no real takes are read */
export async function takeTables(range: { from?: number; cases?: number }): Promise<string> {
  const quoted = range.from === undefined && range.cases === undefined;
  const { from = QUOTED_SEEDS.from, cases = CASES } = range;
  const jobs = Array.from({ length: cases }, (_, i): TakeJob => {
    return { seed: from + i, groove: i % GROOVE_EVERY === GROOVE_EVERY - 1 };
  });
  const results = await runJobs<TakeJob, TakeResult>(WORKER, jobs);
  const real = quoted && takesHere ? await readRealTakes() : [];
  return [
    hitsTable(results, real),
    pairsTable(results, real),
    ...(quoted && !takesHere ? [`\nTakes of a real kit: skipped, ${TAKES_ABSENT}.`] : []),
    listOf('Hits whose drum is wrong, or drums that were added', [
      ...results.flatMap(confusions),
      ...real.flatMap(realConfusions),
    ]),
    listOf('Wrong and sure', [
      ...results.flatMap(({ seed, clean }) => clean.pairs.flatMap((pair) => wrongOf(String(seed), pair))),
      ...real.flatMap(({ take, pairs }) => pairs.flatMap((pair) => wrongOf(take, pair))),
    ]),
    reasonsTable(results, real),
    ...faultTables(results),
    ...real.map(({ take, faults }) => listOf(`Faults named in ${take}, which has none`, faults)),
    timesLine(results),
  ].join('\n');
}

export const listOf = (title: string, lines: readonly string[]): string =>
  `\n${title}: ${lines.length === 0 ? 'none' : `${lines.length}\n  ${lines.join('\n  ')}`}`;

/** What is judged, by what it is a part of: the takes with one drum after the other, those with a groove, each real one. */
function groupsOf<T>(
  results: readonly TakeResult[],
  real: readonly RealTake[],
  part: (one: TakeResult['clean'] | RealTake) => T,
): [string, T[]][] {
  const of = (groove: boolean): T[] => results.filter((one) => one.groove === groove).map(({ clean }) => part(clean));
  const groups: [string, T[]][] = [
    ['simulated, drum after drum', of(false)],
    ['simulated, and a groove', of(true)],
    ...real.map((one): [string, T[]] => [one.take, [part(one)]]),
  ];
  return groups.filter(([, list]) => list.length > 0);
}

function hitsTable(results: readonly TakeResult[], real: readonly RealTake[]): string {
  const rows = groupsOf(results, real, ({ hits }) => hits).flatMap(([group, takes]) => {
    const drums = [...new Set(takes.flatMap((hits) => Object.keys(hits)))];
    return drums.map((drum) => {
      const all = takes.flatMap((hits) => (hits[drum] ? [hits[drum]] : []));
      const sum = (of: (one: JudgedHits) => number): number => all.reduce((total, one) => total + of(one), 0);
      const [right, wrong, under, nobodys, missed] = [
        sum((h) => h.right),
        sum((h) => h.wrong),
        sum((h) => h.under),
        sum((h) => h.nobodys),
        sum((h) => h.missed),
      ];
      return [
        group,
        drum,
        right + wrong + under + nobodys + missed,
        right,
        wrong,
        under,
        nobodys,
        missed,
        sum((h) => h.added),
      ];
    });
  });
  const head = [
    'take',
    'drum',
    'hits',
    'right',
    'wrong',
    'under another',
    'nobody’s',
    'missed',
    'added where it wasn’t struck',
  ];
  return table('Whole takes: whose hits they are', head, rows);
}

const OUTCOMES = ['right', 'wrong', 'low end', 'none', 'none, rightly'] as const;

function pairsTable(results: readonly TakeResult[], real: readonly RealTake[]): string {
  const rows = groupsOf(results, real, ({ pairs }) => pairs).flatMap(([group, takes]) => {
    const all = takes.flat();
    const row = (name: string, some: readonly JudgedPair[]): (string | number)[] => {
      const counts = OUTCOMES.map((outcome) => some.filter((pair) => pair.outcome === outcome).length);
      const polarity = some.filter(({ outcome, polarityWrong }) => outcome === 'wrong' && polarityWrong).length;
      return [group, name, some.length, ...counts, polarity];
    };
    const of = (key: 'drum' | 'kind'): string[] => [...new Set(all.map((pair) => pair[key]))];
    return [
      row('all', all),
      ...of('drum').map((drum) =>
        row(
          drum,
          all.filter((pair) => pair.drum === drum),
        ),
      ),
      ...of('kind').map((kind) =>
        row(
          `pairs “${kind}”`,
          all.filter((pair) => pair.kind === kind),
        ),
      ),
    ];
  });
  const absent = real.map(
    ({ take, firm, absent: list }) =>
      `${take}: ${firm} firm pairs, ${list.length} not in the report${list.length > 0 ? ` (${list.join('; ')})` : ''}`,
  );
  const title =
    'Pairs of every drum, nothing planted; right: polarity, and within 5 cm (real takes: within the reference’s tolerance)';
  const head = [
    'take',
    'of',
    'pairs',
    'right',
    'wrong',
    'low end answered',
    'no answer',
    'rightly none',
    'wrong polarity',
  ];
  return [table(title, head, rows), ...absent].join('\n');
}

function reasonsTable(results: readonly TakeResult[], real: readonly RealTake[]): string {
  const rows = groupsOf(results, real, ({ pairs }) => pairs).flatMap(([group, takes]) => {
    const counts = new Map<string, number>();
    for (const { outcome, reason, drum } of takes.flat())
      if (outcome === 'none') counts.set(`${reason}\t${drum}`, (counts.get(`${reason}\t${drum}`) ?? 0) + 1);
    return [...counts].sort().map(([key, n]) => [group, ...key.split('\t'), n]);
  });
  return table('Why pairs have no answer', ['take', 'reason', 'drum', 'pairs'], rows);
}

function wrongOf(take: string, { drum, a, b, kind, outcome, reason, offSamples, polarityWrong }: JudgedPair): string[] {
  if (outcome !== 'wrong') return [];
  const off = `${(offSamples ?? Number.NaN).toFixed(1)} samples off${polarityWrong ? ', and the polarity' : ''}`;
  return [`${take}: ${drum}, ${a} – ${b} (${kind}, ${reason}), ${off}`];
}

function confusions({ seed, groove, clean }: TakeResult): string[] {
  return confusedOf(`${seed}${groove ? ' with a groove' : ''}`, clean.hits);
}

const realConfusions = ({ take, hits }: RealTake): string[] => confusedOf(take, hits);

function confusedOf(take: string, hits: Readonly<Record<string, JudgedHits>>): string[] {
  return Object.entries(hits).flatMap(([drum, { confused }]) =>
    Object.entries(confused).map(([what, times]) => `${take}: ${drum} ${what}, ${times} times`),
  );
}

function timesLine(results: readonly TakeResult[]): string {
  const mean = (of: (one: TakeResult) => number): string =>
    (results.reduce((sum, one) => sum + of(one), 0) / results.length).toFixed(1);
  const [take, render, read] = [mean((r) => r.takeSeconds), mean((r) => r.renderSeconds), mean((r) => r.readSeconds)];
  return `\nOn average a take lasts ${take} s, is made in ${render} s and read in ${read} s, two at a time.`;
}
