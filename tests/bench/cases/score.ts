/** One method on one recording, scored; and scores added up. */
import type { Polarity } from '../../../src/reading/reading';
import { type Answer, GROSS_CM, type Judgement } from '../../cases/judge';
import { samplesToCm } from '../../cases/truth';
import type { OurAnswer, OurOutcome } from './ours';
import type { PeerAnswer } from './peers';

/** an answer so far off moves a stand to another place, cm */
const FAR_CM = 5;

export interface Score {
  /** sure at the end, and right then (with several drums: all that are answered) */
  answered: boolean;
  right: boolean;
  /** a wrong answer shown as sure: at the end, and at any moment */
  wrongAtEnd: boolean;
  wrongEver: boolean;
  /** sure readings, one per drum and hit, and the wrong ones of them */
  sure: number;
  wrong: number;
  /** of those, the ones of the other polarity; and the ones of it or farther off than FAR_CM */
  flipped: number;
  farOff: number;
  /** sure readings whose stated uncertainty is within 2.4 cm, and the wrong ones of them */
  claimed: number;
  claimedWrong: number;
  /** |error| at the end, cm; null: none, or polarity only */
  errorCm: number | null;
  /** hits heard when the first right answer came; null: never */
  firstRight: number | null;
  /** is the truth within the 90 % uncertainty? null: none was given */
  covered: boolean | null;
  /** sure readings that state an uncertainty, and those whose truth lies within it; the same of those that state 2.4 cm at most */
  stated: number;
  statedHold: number;
  claimedHold: number;
  /** is a single answer shown at the end? */
  shown: boolean;
  /** the asked drum's entry in the list of drums at the end; null: none, or not sure */
  asked: 'right' | 'wrong' | null;
  /** sure readings of the other polarity, or farther off than FAR_CM */
  far: FarReading[];
}

export interface FarReading {
  /** that it was judged by; null: nothing can be told */
  drum: string | null;
  hits: number;
  delaySamples: number;
  polarity: Polarity;
  polarityRight: boolean;
  /** by path; null: nothing can be told */
  errorCm: number | null;
  /** null: no uncertainty is stated */
  statedCm: number | null;
}

export interface AnswerJudge {
  judge(answer: Answer): Judgement;
  /** the drum that the pair stands for; absent, or null: there is but one, or none */
  readonly asked?: string | null;
}

export function scoreOurs(outcome: OurOutcome, judge: AnswerJudge): Score {
  const readings = new Map<string, SureReading>();
  let firstRight: number | null = null;
  for (const answer of outcome.answers) {
    const judged = judge.judge(answer);
    const { right, polarityRight } = judged;
    const key = `${answer.drum} ${answer.hits}`;
    const so = readings.get(key) ?? UNSEEN;
    readings.set(key, {
      right: so.right && right,
      polarityRight: so.polarityRight && polarityRight,
      near: so.near && isNear(judged),
      claimed: so.claimed || claimsLittle(answer),
      stated: so.stated || answer.uncertaintySamples !== null,
      holds: so.holds && holds(answer, judged),
      far: isNear(judged) ? so.far : farReading(answer, judged),
    });
    if (right) firstRight ??= answer.hits;
  }
  const last = outcome.last.map((answer) => ({ answer, judged: judge.judge(answer) }));
  const [main] = last;
  const all = [...readings.values()];
  const count = (of: (reading: SureReading) => boolean): number => all.filter(of).length;
  const wrong = count(({ right }) => !right);
  const asked = last.filter(({ judged }) => judged.drum !== null && judged.drum === judge.asked);
  const uncertainty = main?.answer.uncertaintySamples ?? null;
  const known = main !== undefined && uncertainty !== null && Number.isFinite(main.judged.trueSamples);
  return {
    answered: last.length > 0,
    right: last.length > 0 && last.every(({ judged }) => judged.right),
    wrongAtEnd: last.some(({ judged }) => !judged.right),
    wrongEver: wrong > 0,
    sure: readings.size,
    wrong,
    flipped: count(({ polarityRight }) => !polarityRight),
    farOff: count(({ near }) => !near),
    claimed: count(({ claimed }) => claimed),
    claimedWrong: count(({ claimed, right }) => claimed && !right),
    errorCm: main && Number.isFinite(main.judged.errorCm) ? Math.abs(main.judged.errorCm) : null,
    firstRight,
    covered: known ? Math.abs(main.answer.delaySamples - main.judged.trueSamples) <= uncertainty : null,
    stated: count(({ stated }) => stated),
    statedHold: count(({ stated, holds }) => stated && holds),
    claimedHold: count(({ claimed, holds }) => claimed && holds),
    shown: last.some(({ answer }) => answer.main),
    asked: asked.length === 0 ? null : asked.every(({ judged }) => judged.right) ? 'right' : 'wrong',
    far: all.flatMap(({ far }) => far ?? []),
  };
}

/** One drum's after one hit: what holds at each look at it. */
interface SureReading {
  right: boolean;
  polarityRight: boolean;
  near: boolean;
  claimed: boolean;
  stated: boolean;
  holds: boolean;
  far: FarReading | null;
}

const UNSEEN: SureReading = {
  right: true,
  polarityRight: true,
  near: true,
  claimed: false,
  stated: false,
  holds: true,
  far: null,
};

/** Does the truth lie within the stated uncertainty, where one is stated? */
const holds = ({ uncertaintySamples, delaySamples }: OurAnswer, { trueSamples }: Judgement): boolean =>
  uncertaintySamples === null || Math.abs(delaySamples - trueSamples) <= uncertaintySamples;

function farReading(answer: OurAnswer, { drum, polarityRight, errorCm }: Judgement): FarReading {
  const { hits, delaySamples, polarity, uncertaintySamples, sampleRate } = answer;
  return {
    drum,
    hits,
    delaySamples,
    polarity,
    polarityRight,
    errorCm: Number.isFinite(errorCm) ? errorCm : null,
    statedCm: uncertaintySamples === null ? null : samplesToCm(uncertaintySamples, sampleRate),
  };
}

/** Within FAR_CM, or right: a file's own tolerance may be wider. */
const isNear = ({ right, polarityRight, errorCm }: Judgement): boolean =>
  right || (polarityRight && Math.abs(errorCm) <= FAR_CM);

/** Does it say that it is accurate to what counts as gross? */
const claimsLittle = ({ uncertaintySamples, sampleRate }: OurAnswer): boolean =>
  uncertaintySamples !== null && samplesToCm(uncertaintySamples, sampleRate) <= GROSS_CM;

/** @param polarityOnly the delay isn't judged */
export function scorePeer(answers: readonly (PeerAnswer | null)[], judge: AnswerJudge, polarityOnly: boolean): Score {
  const judged = answers.map((answer) => {
    if (!answer) return null;
    const found = judge.judge({ ...answer, delaySamples: answer.delaySamples ?? 0 });
    const { right, polarityRight, errorCm } = found;
    const near = polarityOnly ? polarityRight : isNear(found);
    return { hits: answer.hits, right: polarityOnly ? polarityRight : right, polarityRight, near, errorCm };
  });
  const last = judged.at(-1) ?? null;
  const wrong = judged.filter((one) => one !== null && !one.right).length;
  return {
    answered: last !== null,
    right: last?.right ?? false,
    wrongAtEnd: last !== null && !last.right,
    wrongEver: wrong > 0,
    sure: judged.filter((one) => one !== null).length,
    wrong,
    flipped: judged.filter((one) => one !== null && !one.polarityRight).length,
    farOff: judged.filter((one) => one !== null && !one.near).length,
    claimed: 0,
    claimedWrong: 0,
    errorCm: !polarityOnly && last && Number.isFinite(last.errorCm) ? Math.abs(last.errorCm) : null,
    firstRight: judged.find((one) => one?.right)?.hits ?? null,
    covered: null,
    stated: 0,
    statedHold: 0,
    claimedHold: 0,
    shown: last !== null,
    asked: null,
    far: [],
  };
}

const share = (sorted: readonly number[], at: number): number =>
  sorted[Math.floor(at * (sorted.length - 1))] ?? Number.NaN;
const cm = (x: number): string => (Number.isNaN(x) ? '–' : x.toFixed(x < 10 ? 2 : 1));

export const SCORE_HEAD = [
  'cases',
  'answered',
  'right',
  'wrong & sure at the end',
  'ever',
  'of sure readings',
  'polarity wrong',
  'or > 5 cm off',
  'of those within 2.4 cm by their own word',
  'median cm',
  '95 % cm',
  'hits needed',
  'within 90 %',
] as const;

/** The columns of SCORE_HEAD. */
export function scoreColumns(scores: readonly Score[]): (string | number)[] {
  const count = (of: (score: Score) => boolean | null): number => scores.filter((score) => of(score) === true).length;
  const sum = (of: (score: Score) => number): number => scores.reduce((total, score) => total + of(score), 0);
  const errors = scores.flatMap((score) => score.errorCm ?? []).sort((p, q) => p - q);
  const hits = scores.flatMap((score) => score.firstRight ?? []).sort((p, q) => p - q);
  const known = scores.filter((score) => score.covered !== null).length;
  return [
    scores.length,
    count((score) => score.answered),
    count((score) => score.right),
    count((score) => score.wrongAtEnd),
    count((score) => score.wrongEver),
    `${sum((score) => score.wrong)} of ${sum((score) => score.sure)}`,
    sum((score) => score.flipped),
    sum((score) => score.farOff),
    sum((score) => score.claimed) > 0
      ? `${sum((score) => score.claimedWrong)} of ${sum((score) => score.claimed)}`
      : '–',
    cm(share(errors, 0.5)),
    cm(share(errors, 0.95)),
    hits.length > 0 ? share(hits, 0.5) : '–',
    known > 0 ? `${count((score) => score.covered)} of ${known}` : '–',
  ];
}
