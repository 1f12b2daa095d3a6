/** `npm run bench -- cases`: the engine beside what one would use instead, on the same files in the same run. */
import { performance } from 'node:perf_hooks';
import { PAIR_KIND_IDS } from '../../../src/advice/plan/pairKinds';
import type { TuningChanges } from '../../../src/dsp/tuning/tuned';
import { CASE_GROUPS, QUOTED_SEEDS } from '../../cases/case';
import { drawCase, groupOf, TURN_LENGTH } from '../../cases/drawCase';
import { GROSS_CM } from '../../cases/judge';
import { REAL_ABSENT, realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';
import type { BenchOptions } from '../options';
import { table } from '../table';
import { type CaseJob, type CaseResult, METHODS, type Method, OURS } from './caseJob';
import { type Done, farTable, type Group, holdTable, listTable } from './kitTables';
import { VARIANT_HITS, VARIANTS } from './realCases';
import { runCases } from './runCases';
import { SCORE_HEAD, type Score, scoreColumns } from './score';

/** So many rounds through the groups: 1518 cases, 184 of them grooves. */
export const QUOTED_CASES = 46 * TURN_LENGTH;

const NOTES = `
answered: at the end the shown drum, or any drum of the list, is sure (two overheads tell nothing of which drum is asked: no
  single answer is shown then, the list answers); with several, right is: all of them are
sure: the engine's state is "measured"; a peer's last 8 hits hold 4, and 75 %, of one sign within ±0.1 ms (polarity alone: of one sign)
right: polarity, and the delay within ${GROSS_CM} cm (kit), within the file's own tolerance (real); zero-lag sign: polarity alone
wrong & sure: at the end, at any moment, and in how many of all sure readings (one per drum and hit), and how many of
  those had the other polarity, or that or lay more than 5 cm off; where nothing can be told every sure answer is wrong; last, counted among the sure readings
  that state an uncertainty of at most ${GROSS_CM} cm
errors: of the answers at the end, wrong ones included; hits needed: heard when the first right answer came, median
within 90 %: truth within the stated uncertainty. One signal twice: the engine says so, which is no answer here
asked drum: the one that the pair stands for; its entry in the list is the sure one whose hits are that drum's strokes. Hits in which a
  drum and a cymbal are struck together are the drum's. Far readings: of the other polarity or more than 5 cm off`;

export function kitJobs(from: number, count: number): CaseJob[] {
  return Array.from({ length: count }, (_, i): CaseJob => {
    const seed = from + i;
    return { corpus: 'kit', seed, group: groupOf(seed), kind: drawCase(seed).kind };
  });
}

function realJobs(): CaseJob[] {
  const recordings = realRecordingsHere ? realRecordings() : [];
  return VARIANTS.flatMap((variant) =>
    recordings.map((recording): CaseJob => ({ corpus: 'real', recording, variant })),
  );
}

/**
 * @param changes of the engine's tuning
 * @param range of other cases than the quoted ones; then the simulated kit alone
 * @param own without the usual methods beside
 */
export async function caseTables(
  changes: TuningChanges = {},
  range: BenchOptions['range'] = {},
  own = false,
): Promise<string> {
  const started = performance.now();
  const alone = range.from !== undefined || range.cases !== undefined;
  const { from = QUOTED_SEEDS.from, cases = QUOTED_CASES } = range;
  const jobs = [...(alone ? [] : realJobs()), ...kitJobs(from, cases)];
  const results = await runCases(jobs, changes, own);
  const done = jobs.map((job, i): Done => ({ job, result: results[i] as CaseResult }));
  const seconds = (performance.now() - started) / 1000;
  const kit = done.filter(({ job }) => job.corpus === 'kit');
  const real = done.filter(({ job }) => job.corpus === 'real');
  const realPart = realRecordingsHere ? realTables(real) : `\nReal recordings: skipped, ${REAL_ABSENT}.`;
  return [
    ...(alone ? [] : [realPart]),
    kitTables(kit, `seeds ${from}–${from + cases - 1}`),
    NOTES,
    `\n${jobs.length} recordings in ${seconds.toFixed(0)} s on two processes`,
  ].join('\n');
}

export function kitTables(kit: readonly Done[], seeds: string): string {
  const groups = groupsOf(kit);
  const withKinds = [...groups, ...groovesOf(kit)];
  const grooves = groups.filter(([group]) => group === 'groove');
  return [
    beside(`Simulated kit, ${seeds}`, [['all', kit]]),
    byGroup(`Crosshead by group, simulated kit, ${seeds}`, 'group', withKinds),
    listTable(`The asked drum in the list of drums, simulated kit, ${seeds}`, [['all', kit], ...withKinds]),
    holdTable(`Truth within the stated ±, of 90 %, simulated kit, ${seeds}`, [['all', kit], ...grooves]),
    farTable(`Sure readings of the other polarity or more than 5 cm off, simulated kit, ${seeds}`, kit),
    peersByGroup(`Right · wrong & sure at any moment, by group, simulated kit, ${seeds}`, 'group', groups),
  ].join('\n');
}

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

/** By what the two microphones are to each other. */
function groovesOf(kit: readonly Done[]): Group[] {
  return PAIR_KIND_IDS.map((kind): Group => {
    const wanted = ({ job }: Done): boolean => job.corpus === 'kit' && job.group === 'groove' && job.kind === kind;
    return [`groove, ${kind}`, kit.filter(wanted)];
  }).filter(([, done]) => done.length > 0);
}

/** Those that were run. */
const methodsOf = (done: readonly Done[]): Method[] => METHODS.filter((method) => done[0]?.result[method]);
const scoresBy = (method: Method, done: readonly Done[]): Score[] => done.flatMap(({ result }) => result[method] ?? []);

/** Every method on the same files. */
function beside(title: string, groups: readonly Group[]): string {
  const rows = groups.flatMap(([name, done]) =>
    methodsOf(done).map((method) => [name, method, ...scoreColumns(scoresBy(method, done))]),
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
    ...methodsOf(done).map((method) => {
      const scores = scoresBy(method, done);
      return `${scores.filter((score) => score.right).length} · ${scores.filter((score) => score.wrongEver).length}`;
    }),
  ]);
  return table(title, [what, 'cases', ...methodsOf(groups[0]?.[1] ?? [])], rows);
}
