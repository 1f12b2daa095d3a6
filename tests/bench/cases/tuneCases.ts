/**
 * `npx tsx tests/bench/cases/tuneCases.ts [count [skip]] [group …]`: the engine over tuning seeds, a line per case that isn't right.
 * For work on the engine; what is quoted comes from `npm run bench -- cases`, on other seeds.
 */
import { pairKind } from '../../../src/advice/plan/pairKinds';
import { CASE_GROUPS, TUNING_SEEDS } from '../../cases/case';
import { drawCase, groupOf } from '../../cases/drawCase';
import { Judge } from '../../cases/judge';
import { renderCase } from '../../cases/renderCase';
import { table } from '../table';
import { readOurs } from './ours';
import { SCORE_HEAD, type Score, scoreColumns, scoreOurs } from './score';

const asked = process.argv.slice(2).filter((word) => !/^\d+$/.test(word));
const [count = 99, skip = 0] = process.argv
  .slice(2)
  .filter((word) => /^\d+$/.test(word))
  .map(Number);
const first = TUNING_SEEDS.from + skip;
const rows = new Map<string, Score[]>();
for (let seed = first; seed < first + count; seed++) {
  const group = groupOf(seed);
  if (asked.length > 0 && !asked.includes(group)) continue;
  const made = drawCase(seed);
  const { a, b, sampleRate } = renderCase(made);
  const judge = new Judge(made);
  const outcome = readOurs(a, b, sampleRate, { maxLagMs: pairKind(made.kind).maxLagMs });
  rows.set(group, [...(rows.get(group) ?? []), scoreOurs(outcome, judge)]);
  const told = `${seed} ${group} · ${made.kind} · ${sampleRate}`;
  const wrong = outcome.answers.filter((answer) => !judge.judge(answer).right);
  const [one] = wrong;
  if (one) {
    const j = judge.judge(one);
    console.log(
      `${told}: wrong ${wrong.length} times of ${outcome.answers.length}, first after ${one.hits} hits: ${j.drum} ${one.delaySamples.toFixed(1)} ${one.polarity}, true ${j.trueSamples.toFixed(1)}${j.polarityRight ? '' : ', other polarity'}`,
    );
  } else if (outcome.last.length === 0 && made.noAnswer === null) {
    console.log(`${told}: ${outcome.state} ${outcome.reason}`);
  }
}
console.log(
  table(
    `Tuning seeds ${first}–${first + count - 1}`,
    ['group', ...SCORE_HEAD],
    CASE_GROUPS.flatMap((group) => {
      const scores = rows.get(group);
      return scores ? [[group, ...scoreColumns(scores)]] : [];
    }),
  ),
);
