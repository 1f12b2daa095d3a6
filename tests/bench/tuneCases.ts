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
import { SCORE_HEAD, type Score, scoreColumns, scoreOurs } from './score';
import { table } from './table';

const asked = process.argv.slice(2).filter((word) => !/^\d+$/.test(word));
const count = Number(process.argv.slice(2).find((word) => /^\d+$/.test(word)) ?? 99);
const rows = new Map<string, Score[]>();
for (let seed = TUNING_SEEDS.from; seed < TUNING_SEEDS.from + count; seed++) {
  const group = groupOf(seed);
  if (asked.length > 0 && !asked.includes(group)) continue;
  const made = drawCase(seed);
  const { a, b, sampleRate } = renderCase(made);
  const judge = new Judge(made);
  const outcome = readOurs(a, b, sampleRate, { maxLagMs: pairKind(made.kind).maxLagMs });
  rows.set(group, [...(rows.get(group) ?? []), scoreOurs(outcome, judge)]);
  const told = `${seed} ${group} · ${made.kind} · ${sampleRate}`;
  const wrong = outcome.answers.filter((answer) => !judge.judge(answer).right);
  const [first] = wrong;
  if (first) {
    const j = judge.judge(first);
    console.log(
      `${told}: wrong ${wrong.length} times of ${outcome.answers.length}, first after ${first.hits} hits: ${j.drum} ${first.delaySamples.toFixed(1)} ${first.polarity}, true ${j.trueSamples.toFixed(1)}${j.polarityRight ? '' : ', other polarity'}`,
    );
  } else if (outcome.last.length === 0 && made.noAnswer === null) {
    console.log(`${told}: ${outcome.state} ${outcome.reason}`);
  }
}
console.log(
  table(
    `Tuning seeds ${TUNING_SEEDS.from}–${TUNING_SEEDS.from + count - 1}`,
    ['group', ...SCORE_HEAD],
    CASE_GROUPS.flatMap((group) => {
      const scores = rows.get(group);
      return scores ? [[group, ...scoreColumns(scores)]] : [];
    }),
  ),
);
