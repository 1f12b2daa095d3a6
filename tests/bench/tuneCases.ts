/**
 * `npx tsx tests/bench/tuneCases.ts [count] [group …]`: the engine over tuning seeds, a line per case that isn't right.
 * For work on the engine; what is quoted comes from `npm run bench -- cases`, on other seeds.
 */
import { pairKind } from '../../src/advice/kinds';
import { CASE_GROUPS, TUNING_SEEDS } from '../cases/case';
import { drawCase, groupOf } from '../cases/drawCase';
import { Judge } from '../cases/judge';
import { renderCase } from '../cases/renderCase';
import { readOurs } from './ours';
import { table } from './table';

const asked = process.argv.slice(2).filter((word) => !/^\d+$/.test(word));
const count = Number(process.argv.slice(2).find((word) => /^\d+$/.test(word)) ?? 99);
const rows = new Map<string, { n: number; answered: number; right: number; wrong: number; within: number }>();
for (let seed = TUNING_SEEDS.from; seed < TUNING_SEEDS.from + count; seed++) {
  const group = groupOf(seed);
  if (asked.length > 0 && !asked.includes(group)) continue;
  const made = drawCase(seed);
  const { a, b, sampleRate } = renderCase(made);
  const judge = new Judge(made);
  const outcome = readOurs(a, b, sampleRate, { maxLagMs: pairKind(made.kind).maxLagMs });
  const row = rows.get(group) ?? { n: 0, answered: 0, right: 0, wrong: 0, within: 0 };
  rows.set(group, row);
  row.n++;
  const wrong = outcome.answers.filter((answer) => !judge.judge(answer).right);
  if (wrong.length > 0) row.wrong++;
  const last = outcome.last && judge.judge(outcome.last);
  if (last) row.answered++;
  if (last?.right) row.right++;
  if (last && Math.abs((outcome.last?.delaySamples ?? 0) - last.trueSamples) <= (outcome.last?.uncertaintySamples ?? 0))
    row.within++;
  const told = `${seed} ${group} · ${made.kind} · ${sampleRate}`;
  if (wrong.length > 0) {
    const first = wrong[0] as (typeof wrong)[0];
    const j = judge.judge(first);
    console.log(
      `${told}: wrong ${wrong.length} times of ${outcome.answers.length}, first after ${first.hits} hits: ${j.drum} ${first.delaySamples.toFixed(1)} ${first.polarity}, true ${j.trueSamples.toFixed(1)} ${j.polarityRight ? '' : 'other polarity'}`,
    );
  } else if (!last && made.noAnswer === null) console.log(`${told}: ${outcome.state} ${outcome.reason}`);
}
console.log(
  table(
    `Tuning seeds ${TUNING_SEEDS.from}–${TUNING_SEEDS.from + count - 1}`,
    ['group', 'cases', 'answered', 'right', 'ever wrong and sure', 'within uncertainty'],
    CASE_GROUPS.flatMap((group) => {
      const r = rows.get(group);
      return r ? [[group, r.n, r.answered, r.right, r.wrong, `${r.within} of ${r.answered}`]] : [];
    }),
  ),
);
