/** `npm run bench -- cases`: the engine beside what one would use instead, on the same files in the same run. */
import { performance } from 'node:perf_hooks';
import type { TuningChanges } from '../../../src/dsp/tuning/tuned';
import { CASE_GROUPS, QUOTED_SEEDS } from '../../cases/case';
import { groupOf, TURN_LENGTH } from '../../cases/drawCase';
import { GROSS_CM } from '../../cases/judge';
import { REAL_ABSENT, realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';
import { table } from '../table';
import { type CaseJob, type CaseResult, METHODS, OURS } from './caseJob';
import { PEERS } from './peers';
import { VARIANT_HITS, VARIANTS } from './realCases';
import { runCases } from './runCases';
import { SCORE_HEAD, scoreColumns } from './score';

/** Eight rounds through the groups. */
export const QUOTED_CASES = 8 * TURN_LENGTH;

const NOTES = `
sure: the engine's state is "measured"; a peer's last 8 hits hold 4, and 75 %, of one sign within ±0.1 ms (polarity alone: of one sign)
right: polarity, and the delay within ${GROSS_CM} cm (kit), within the file's own tolerance (real); zero-lag sign: polarity alone
wrong & sure: at the end, at any moment, and in how many of all sure readings (one per drum and hit), and how many of
  those had the other polarity, or that or lay more than 5 cm off; where nothing can be told every sure answer is wrong; last, counted among the sure readings
  that state an uncertainty of at most ${GROSS_CM} cm
errors: of the answers at the end, wrong ones included; hits needed: heard when the first right answer came, median
within 90 %: truth within the stated uncertainty. One signal twice: the engine says so, which is no answer here`;

interface Done {
  job: CaseJob;
  result: CaseResult;
}

function jobsOf(seeds: readonly number[]): CaseJob[] {
  const kit = seeds.map((seed): CaseJob => ({ corpus: 'kit', seed, group: groupOf(seed) }));
  const recordings = realRecordingsHere ? realRecordings() : [];
  const real = VARIANTS.flatMap((variant) =>
    recordings.map((recording): CaseJob => ({ corpus: 'real', recording, variant })),
  );
  return [...real, ...kit];
}

/** @param changes of the engine's tuning */
export async function caseTables(
  changes: TuningChanges = {},
  from: number = QUOTED_SEEDS.from,
  count: number = QUOTED_CASES,
): Promise<string> {
  const started = performance.now();
  const jobs = jobsOf(Array.from({ length: count }, (_, i) => from + i));
  const results = await runCases(jobs, changes);
  const done = jobs.map((job, i): Done => ({ job, result: results[i] as CaseResult }));
  const seconds = (performance.now() - started) / 1000;
  const kit = done.filter(({ job }) => job.corpus === 'kit');
  const real = done.filter(({ job }) => job.corpus === 'real');
  const seeds = `seeds ${from}–${from + count - 1}`;
  return [
    realRecordingsHere ? realTables(real) : `\nReal recordings: skipped, ${REAL_ABSENT}.`,
    beside(`Simulated kit, ${seeds}`, [['all', kit]]),
    byGroup(`Crosshead by group, simulated kit, ${seeds}`, 'group', groupsOf(kit)),
    peersByGroup(`Right · wrong & sure at any moment, by group, simulated kit, ${seeds}`, 'group', groupsOf(kit)),
    NOTES,
    `\n${jobs.length} recordings in ${seconds.toFixed(0)} s on two processes`,
  ].join('\n');
}

type Group = [name: string, done: Done[]];

function realTables(real: readonly Done[]): string {
  const of = (variant: string, firm: boolean): Done[] =>
    real.filter(
      ({ job }) => job.corpus === 'real' && job.variant === variant && (job.recording.class === 'firm') === firm,
    );
  const [recorded, ...hard] = VARIANTS;
  const firm = VARIANTS.map((variant): Group => [variant, of(variant, true)]);
  const others = VARIANTS.map((variant): Group => [variant, of(variant, false)]);
  return [
    beside('Real recordings', [
      ['firm, as recorded', of(recorded, true)],
      ['the others, as recorded', of(recorded, false)],
      [`firm, hard variants, ${VARIANT_HITS} hits`, hard.flatMap((variant) => of(variant, true))],
      ['the others, hard variants', hard.flatMap((variant) => of(variant, false))],
    ]),
    byGroup('Crosshead by variant, firm real recordings', 'variant', firm),
    byGroup('Crosshead by variant, the other real recordings (conflict, weak, groove, no answer)', 'variant', others),
    peersByGroup('Right · wrong & sure at any moment, by variant, firm real recordings', 'variant', firm),
  ].join('\n');
}

function groupsOf(kit: readonly Done[]): Group[] {
  return CASE_GROUPS.map(
    (group): Group => [group, kit.filter(({ job }) => job.corpus === 'kit' && job.group === group)],
  ).filter(([, done]) => done.length > 0);
}

/** Every method on the same files. */
function beside(title: string, groups: readonly Group[]): string {
  const rows = groups.flatMap(([name, done]) =>
    METHODS.map((method) => [name, method, ...scoreColumns(done.map(({ result }) => result[method]))]),
  );
  return table(title, ['files', 'method', ...SCORE_HEAD], rows);
}

function byGroup(title: string, what: string, groups: readonly Group[]): string {
  const rows = groups.map(([name, done]) => [name, ...scoreColumns(done.map(({ result }) => result[OURS]))]);
  return table(title, [what, ...SCORE_HEAD], rows);
}

function peersByGroup(title: string, what: string, groups: readonly Group[]): string {
  const rows = groups.map(([name, done]) => [
    name,
    done.length,
    ...METHODS.map((method) => {
      const scores = done.map(({ result }) => result[method]);
      return `${scores.filter((score) => score.right).length} · ${scores.filter((score) => score.wrongEver).length}`;
    }),
  ]);
  return table(title, [what, 'cases', OURS, ...PEERS], rows);
}
