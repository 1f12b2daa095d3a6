/** A take's report against what is true of the take: its hits, and each pair of each drum. */
import type { Polarity } from '../../../src/reading/reading';
import type { TakeReport } from '../../../src/take/model';

/** a hit is the truth's where it lies so near, s */
const SAME_HIT_SECONDS = 0.025;

/** What is true of a pair, or why nothing can be said: nothing arrives, or nobody can tell when. */
export type PairTruth =
  | { delaySamples: number; polarity: Polarity; toleranceSamples: number }
  | 'no answer'
  | 'unknown';

export interface KnownTake {
  hits: readonly { seconds: number; drum: string }[];
  /** positive: b hears the drum later */
  pair(drum: string, a: string, b: string): PairTruth;
}

export interface JudgedPair {
  drum: string;
  a: string;
  b: string;
  kind: string;
  /** 'low end': answered, and nobody can tell; 'unknown': answered, and the truth says nothing of it */
  outcome: 'right' | 'wrong' | 'low end' | 'unknown' | 'none' | 'none, rightly';
  reason: string;
  /** of an answer: what is read less what is true, samples */
  offSamples: number | null;
  polarityWrong: boolean;
}

export interface JudgedHits {
  right: number;
  /** found, and another drum named */
  wrong: number;
  /** found, and only others named that were struck at once with it */
  under: number;
  /** found, and no drum named */
  nobodys: number;
  missed: number;
  /** "kick as other drum 1" → how often */
  confused: Record<string, number>;
  /** drums named at moments at which they weren't struck */
  added: number;
}

export interface JudgedTake {
  pairs: JudgedPair[];
  /** by drum */
  hits: Record<string, JudgedHits>;
}

export function judgeTake(report: TakeReport, known: KnownTake): JudgedTake {
  const called = calledBy(report, known);
  return { hits: judgeHits(report, known, called), pairs: judgePairs(report, known, called) };
}

const near = (p: number, q: number): boolean => Math.abs(p - q) < SAME_HIT_SECONDS;

const struckAt = (hits: KnownTake['hits'], at: number): string[] =>
  hits.filter(({ seconds }) => near(seconds, at)).map(({ drum }) => drum);

/** Each drum of the report as the truth calls it: by its name, and where the tracks give none by the hits that it was found in. */
function calledBy(report: TakeReport, { hits }: KnownTake): Map<string, string> {
  const names = new Set(hits.map(({ drum }) => drum));
  const called = new Map<string, string>();
  for (const { drum } of report.drums) {
    if (names.has(drum)) {
      called.set(drum, drum);
      continue;
    }
    const counts = new Map<string, number>();
    for (const hit of report.hits.filter(({ drums }) => drums[0] === drum))
      for (const { drum: struck } of hits.filter(({ seconds }) => near(seconds, hit.timeSeconds)))
        counts.set(struck, (counts.get(struck) ?? 0) + 1);
    called.set(drum, [...counts].sort((p, q) => q[1] - p[1])[0]?.[0] ?? drum);
  }
  return called;
}

function judgeHits(
  report: TakeReport,
  { hits }: KnownTake,
  called: ReadonlyMap<string, string>,
): Record<string, JudgedHits> {
  const judged: Record<string, JudgedHits> = {};
  const of = (drum: string): JudgedHits => {
    judged[drum] ??= { right: 0, wrong: 0, under: 0, nobodys: 0, missed: 0, confused: {}, added: 0 };
    return judged[drum];
  };
  const count = (one: JudgedHits, what: string): void => {
    one.confused[what] = (one.confused[what] ?? 0) + 1;
  };
  for (const { seconds, drum } of hits) {
    const one = of(drum);
    const found = report.hits.filter(({ timeSeconds }) => near(timeSeconds, seconds));
    const named = found.flatMap(({ drums }) => drums);
    if (found.length === 0) one.missed++;
    else if (named.some((name) => called.get(name) === drum)) one.right++;
    else if (named.length === 0) one.nobodys++;
    else if (named.every((name) => struckAt(hits, seconds).includes(called.get(name) ?? name))) one.under++;
    else {
      one.wrong++;
      count(one, `as ${named.join(' + ')}`);
    }
  }
  for (const { timeSeconds, drums } of report.hits) {
    const struck = struckAt(hits, timeSeconds);
    for (const name of drums) {
      const drum = called.get(name) ?? name;
      if (struck.includes(drum)) continue;
      const one = of(drum);
      one.added++;
      count(one, `added to ${struck.join(' + ') || 'nothing'}`);
    }
  }
  return judged;
}

function judgePairs(report: TakeReport, known: KnownTake, called: ReadonlyMap<string, string>): JudgedPair[] {
  return report.drums.flatMap(({ drum: name, pairs }) => {
    const drum = called.get(name) ?? name;
    return pairs.map((pair): JudgedPair => {
      const { a, b, kind, state, reasonCode, delaySamples, polarity } = pair;
      const truth = known.pair(drum, a, b);
      const judged = { drum, a, b, kind, reason: reasonCode, offSamples: null, polarityWrong: false };
      if (state !== 'measured' || delaySamples === null)
        return { ...judged, outcome: typeof truth === 'string' ? 'none, rightly' : 'none' };
      if (truth === 'unknown') return { ...judged, outcome: 'unknown' };
      if (truth === 'no answer') return { ...judged, outcome: 'low end' };
      const offSamples = delaySamples - truth.delaySamples;
      const polarityWrong = polarity !== truth.polarity;
      const right = !polarityWrong && Math.abs(offSamples) <= truth.toleranceSamples;
      return { ...judged, outcome: right ? 'right' : 'wrong', offSamples, polarityWrong };
    });
  });
}
