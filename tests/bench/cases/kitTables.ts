/** Of the simulated kit: the asked drum in the list of drums, how often the stated ± holds, and the readings that are far off. */
import type { DrumTruth, KitCase } from '../../cases/case';
import { drawCase } from '../../cases/drawCase';
import { GROSS_CM } from '../../cases/judge';
import { samplesToCm, truthOf } from '../../cases/truth';
import { table } from '../table';
import { type CaseJob, type CaseResult, OURS } from './caseJob';
import type { FarReading, Score } from './score';

export interface Done {
  job: CaseJob;
  result: CaseResult;
}
export type Group = [name: string, done: readonly Done[]];

const scoresOf = (done: readonly Done[]): Score[] => done.map(({ result }) => result[OURS]);
const sum = (scores: readonly Score[], of: (score: Score) => number): number =>
  scores.reduce((total, score) => total + of(score), 0);
const percent = (part: number, of: number): string => (of > 0 ? `${((100 * part) / of).toFixed(1)} %` : '–');

/** Any drum of the list; the one that is shown; the one that is asked, shown or not; readings far off, of it and of the others. */
export function listTable(title: string, groups: readonly Group[]): string {
  const rows = groups.map(([name, done]) => {
    const scores = scoresOf(done);
    const count = (of: (score: Score) => boolean): number => scores.filter(of).length;
    const asked = count((score) => score.asked !== null);
    return [
      name,
      scores.length,
      count((score) => score.answered),
      count((score) => score.shown),
      asked,
      percent(asked, scores.length),
      count((score) => score.asked === 'right'),
      count((score) => score.asked === 'wrong'),
      ...farCounts(done),
    ];
  });
  const head = [
    'group',
    'cases',
    'answered',
    'shown',
    'asked drum sure',
    'of all',
    'right',
    'wrong',
    'far readings of it',
    'of other drums',
    'those a cymbal’s',
  ];
  return table(title, head, rows);
}

/** Readings far off: of the asked drum, of others, and how many of the others' are as a cymbal struck with it arrives. */
function farCounts(done: readonly Done[]): [asked: number, others: number, cymbals: number] {
  const counts: [number, number, number] = [0, 0, 0];
  for (const { job, result } of done) {
    if (job.corpus !== 'kit' || result[OURS].far.length === 0) continue;
    const made = drawCase(job.seed);
    for (const far of result[OURS].far) {
      const ofAsked = far.drum === made.asked;
      counts[ofAsked ? 0 : 1]++;
      if (!ofAsked && alsoArriving(made, far).some(({ metal }) => metal)) counts[2]++;
    }
  }
  return counts;
}

/** At the end, and over all sure readings. */
export function holdTable(title: string, groups: readonly Group[]): string {
  const rows = groups.map(([name, done]) => {
    const scores = scoresOf(done);
    const known = scores.filter(({ covered }) => covered !== null);
    const share = (part: number, of: number): string => `${part} of ${of}, ${percent(part, of)}`;
    return [
      name,
      share(known.filter(({ covered }) => covered).length, known.length),
      share(
        sum(scores, (score) => score.statedHold),
        sum(scores, (score) => score.stated),
      ),
      share(
        sum(scores, (score) => score.claimedHold),
        sum(scores, (score) => score.claimed),
      ),
    ];
  });
  return table(title, ['files', 'at the end', 'all sure readings', `those that state ${GROSS_CM} cm at most`], rows);
}

/** A row for each drum of a case; the worst reading's figures. */
export function farTable(title: string, kit: readonly Done[]): string {
  const rows = kit.flatMap(({ job, result }) => {
    if (job.corpus !== 'kit') return [];
    const drums = new Map<string | null, FarReading[]>();
    for (const far of result[OURS].far) drums.set(far.drum, [...(drums.get(far.drum) ?? []), far]);
    return [...drums].map(([drum, readings]) => {
      const [worst] = [...readings].sort((p, q) => Math.abs(q.errorCm ?? 0) - Math.abs(p.errorCm ?? 0));
      const { hits, errorCm, statedCm } = worst as FarReading;
      const cm = (x: number | null): string => (x === null ? '–' : x.toFixed(1));
      return [
        job.seed,
        job.group,
        job.kind,
        `${drum ?? '–'}${drum === drawCase(job.seed).asked ? '' : ' (not asked)'}`,
        readings.length,
        readings.filter(({ polarityRight }) => !polarityRight).length,
        hits,
        cm(errorCm),
        cm(statedCm),
        fitsInstead(job.seed, worst as FarReading),
      ];
    });
  });
  const head = ['seed', 'group', 'kind', 'drum', 'readings', 'polarity', 'hits', 'off by cm', '± cm', 'fits instead'];
  return table(title, head, rows);
}

const fitsInstead = (seed: number, far: FarReading): string =>
  alsoArriving(drawCase(seed), far)
    .map(({ id }) => id)
    .join(', ') || '–';

/** What else in the case arrives so. */
function alsoArriving(made: KitCase, { drum, delaySamples, polarity }: FarReading): DrumTruth[] {
  return truthOf(made).filter((other) => {
    const off = samplesToCm(delaySamples - other.delaySamples, made.sampleRate);
    return other.id !== drum && other.polarity === polarity && Math.abs(off) <= GROSS_CM;
  });
}
