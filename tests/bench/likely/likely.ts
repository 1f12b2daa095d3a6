/**
 * `npm run bench -- likely`: fits the weights by which the likeliest delay is chosen (`src/dsp/tuning/likelyTuning.ts`, where they are
 * written by hand from here), on drawn cases of the tuning seeds and the real recordings with their variants, and says what they are worth
 * on cases and recordings that they weren't fitted on: every fourth, four times.
 */
import { fileURLToPath } from 'node:url';
import { EVIDENCE } from '../../../src/dsp/delay/likely/evidence';
import { LIKELY } from '../../../src/dsp/tuning/likelyTuning';
import { TUNING_SEEDS } from '../../cases/case';
import { drawCase, groupOf } from '../../cases/drawCase';
import { REAL_ABSENT, realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';
import type { CaseJob } from '../cases/caseJob';
import { VARIANTS } from '../cases/realCases';
import { runJobs } from '../cases/runJobs';
import { table } from '../table';
import type { Choice } from './gather';
import { knownTable } from './knownTable';
import { fitLogit, probabilities } from './logit';

const WORKER = fileURLToPath(new URL('./likelyWorker.ts', import.meta.url));
/** twelve rounds through the groups */
const CASES = 396;
/** ten rounds: forty grooves */
const KNOWN_CASES = 330;
const PULL = 1;
const FOLDS = 4;
const LEAST = [0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95];
/** without the rules */
const ALONE = [0.8, 0.9, 0.95, 0.98];

interface Judged {
  right: boolean;
  grave: boolean;
}

/** a recording, and what it is a variant of: all of those are left out together */
interface Source {
  job: CaseJob;
  fold: number;
}

export async function likelyTables(): Promise<string> {
  const drawn = Array.from({ length: CASES }, (_, i): Source => {
    const seed = TUNING_SEEDS.from + i;
    return { job: { corpus: 'kit', seed, group: groupOf(seed), kind: drawCase(seed).kind }, fold: i % FOLDS };
  });
  const real = (realRecordingsHere ? realRecordings() : []).flatMap((recording, i) =>
    VARIANTS.map((variant): Source => ({ job: { corpus: 'real', recording, variant }, fold: i % FOLDS })),
  );
  const sources = [...real, ...drawn];
  const found = await runJobs<CaseJob, Choice[]>(
    WORKER,
    sources.map(({ job }) => job),
  );
  const choices = found.flatMap((list, i) =>
    list
      .filter(({ candidates }) => candidates.length > 0)
      .map((choice) => ({ choice, source: sources[i] as Source, logit: logitOf(choice) })),
  );
  const fitted = (fold: number | null): number[] =>
    fitLogit(
      choices.filter(({ source }) => source.fold !== fold).map(({ logit }) => logit),
      EVIDENCE.length,
      PULL,
    );
  const weights = fitted(null);
  const folds = Array.from({ length: FOLDS }, (_, fold) => fitted(fold));
  const now = EVIDENCE.map((name) => LIKELY.weights[name]);
  const corpora = [
    ['drawn, grooves', (s: Source) => s.job.corpus === 'kit' && s.job.group === 'groove'],
    ['drawn, the others', (s: Source) => s.job.corpus === 'kit' && s.job.group !== 'groove'],
    ['real', (s: Source) => s.job.corpus === 'real'],
  ] as const;
  const rows = corpora.flatMap(([name, is]) => {
    const asked = choices.filter(({ source, choice }) => is(source) && choice.open && choice.hits >= LIKELY.hits);
    const chosen = asked.map(({ choice, logit, source }) => [
      bestOf(choice, logit, folds[source.fold] as number[]),
      bestOf(choice, logit, now),
    ]);
    const told = (k: 0 | 1): string[] =>
      LEAST.map((least) => {
        const sure = chosen.map((each) => each[k]).filter((best) => best !== undefined && best.probability >= least);
        const right = sure.filter((best) => best?.right).length;
        const grave = sure.filter((best) => best?.grave).length;
        return `${right} · ${sure.length - right - grave} · ${grave}`;
      });
    return [
      [name, asked.length, 'fitted without', ...told(0)],
      [name, asked.length, 'as it is', ...told(1)],
    ];
  });

  const beside = corpora.flatMap(([name, is]) => {
    const all = choices.filter(({ source }) => is(source));
    const counts = (of: (one: (typeof all)[number]) => Judged | null): string => {
      const sure = all.map(of).filter((judged) => judged !== null);
      const right = sure.filter((judged) => judged.right).length;
      const grave = sure.filter((judged) => judged.grave).length;
      return `${right} · ${sure.length - right - grave} · ${grave}`;
    };
    const logit =
      (least: number) =>
      ({ choice, logit: made, source }: (typeof all)[number]): Judged | null => {
        const best = bestOf(choice, made, folds[source.fold] as number[]);
        return best && best.probability >= least ? best : null;
      };
    const either = (one: (typeof all)[number]): Judged | null =>
      one.choice.rules ?? (one.choice.open && one.choice.hits >= LIKELY.hits ? logit(LIKELY.least)(one) : null);
    const logits = ALONE.map((least) => counts(logit(least)));
    return [[name, all.length, counts(({ choice }) => choice.rules), ...logits, counts(either)]];
  });
  return [
    realRecordingsHere ? '' : `\nReal recordings: left out, ${REAL_ABSENT}.`,
    table(
      `Weights of the likeliest delay, from ${choices.length} choices: seeds ${TUNING_SEEDS.from}–${TUNING_SEEDS.from + CASES - 1}, and the real recordings`,
      ['evidence', 'fitted', 'as it is', ...folds.map((_, i) => `without every ${FOLDS}th, ${i}`)],
      EVIDENCE.map((name, k) => [name, f(weights[k]), f(now[k]), ...folds.map((w) => f(w[k]))]),
    ),
    table(
      'Of what the witnesses leave open, from eight hits on: right · within 5 cm · worse or of the other polarity, from this probability on',
      ['recordings', 'choices', 'weights', ...LEAST.map(String)],
      rows,
    ),
    table(
      'The rules, and the logit in their place, at every look from four hits on: right · within 5 cm · worse or of the other polarity',
      ['recordings', 'looks', 'rules', ...ALONE.map((least) => `logit alone, from ${least}`), 'rules, then logit'],
      beside,
    ),
    knownTable(TUNING_SEEDS.from, TUNING_SEEDS.from + KNOWN_CASES),
  ].join('\n');
}

const f = (x: number | undefined): string => (x ?? Number.NaN).toFixed(3);

const logitOf = ({ candidates }: Choice): { features: number[][]; right: boolean[] } => ({
  features: candidates.map(({ evidence }) => evidence),
  right: candidates.map(({ right }) => right),
});

/** The likeliest, with what its neighbours add to it, as in the engine. */
function bestOf(
  { candidates, sampleRate }: Choice,
  logit: { features: number[][]; right: boolean[] },
  w: readonly number[],
): { right: boolean; grave: boolean; probability: number } | undefined {
  const { each } = probabilities(logit, w);
  const best = each.indexOf(Math.max(...each));
  const top = candidates[best];
  if (!top) return undefined;
  const same = LIKELY.sameSeconds * sampleRate;
  const probability = each.reduce((sum, p, c) => {
    const other = candidates[c];
    return other && other.sign === top.sign && Math.abs(other.delaySamples - top.delaySamples) < same ? sum + p : sum;
  }, 0);
  return { right: top.right, grave: top.grave, probability };
}
