/** `npm run bench -- ablation`: what the engine is without each of its parts. */
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { QUOTED_SEEDS } from '../../cases/case';
import { drawCase, groupOf, TURN_LENGTH } from '../../cases/drawCase';
import { GROSS_CM } from '../../cases/judge';
import {
  REAL_ABSENT,
  type RealRecording,
  realRecordings,
  realRecordingsHere,
} from '../../support/sound/realRecordings';
import { VARIANT_HITS, type Variant } from '../cases/realCases';
import { runJobs } from '../cases/runJobs';
import type { Score } from '../cases/score';
import { table } from '../table';
import { ABLATIONS, type AblationJob } from './ablationJob';

const WORKER = fileURLToPath(new URL('./ablationWorker.ts', import.meta.url));
/** of the first of the quoted simulated cases every so many-th is read: all groups, four times over */
const CASES = 8 * TURN_LENGTH;
const EVERY = 2;
const NOISY = 'pink noise −50 dB';
/** of B, as in tests/dsp/filtered.test.ts */
const FILTERS = [
  { kind: 'high', hz: 2000 },
  { kind: 'low', hz: 300 },
] as const;

const NOTES = `
right: answered at the end, with the right polarity and delay (simulated: within ${GROSS_CM} cm; real: within the file's own tolerance)
wrong: recordings in which a wrong answer was shown as sure at any moment; simulated: at the end, and of all sure readings
the noisy ones are read for ${VARIANT_HITS} hits; the others: conflict, weak, groove, no answer, as recorded and noisy
B filtered: the firm ones, B through a high-pass at 2 kHz, or a low-pass at 300 Hz, fourth order; to decline is right too`;

export async function ablationTable(): Promise<string> {
  const started = performance.now();
  const kit = Array.from({ length: Math.ceil(CASES / EVERY) }, (_, i): AblationJob => {
    const seed = QUOTED_SEEDS.from + EVERY * i;
    return { corpus: 'kit', seed, group: groupOf(seed), kind: drawCase(seed).kind };
  });
  const recordings = realRecordingsHere ? realRecordings() : [];
  const real = (variant: Variant): AblationJob[] =>
    recordings.map((recording): AblationJob => ({ corpus: 'real', recording, variant }));
  const filtered = FILTERS.flatMap(({ kind, hz }) =>
    recordings.filter(isFirm).map((recording): AblationJob => ({ corpus: 'filtered', recording, kind, hz })),
  );
  const jobs = [...real('as recorded'), ...real(NOISY), ...filtered, ...kit];
  const firm = recordings.filter(isFirm).length;
  const results = await runJobs<AblationJob, Score[]>(WORKER, jobs);
  const seconds = (performance.now() - started) / 1000;
  const rows = ABLATIONS.map(({ name }, k) => {
    const of = (wanted: (job: AblationJob) => boolean): Score[] =>
      jobs.flatMap((job, i) => (wanted(job) ? [results[i]?.[k] as Score] : []));
    const ofReal = (variant: Variant, wanted: (recording: RealRecording) => boolean): Score[] =>
      of((job) => job.corpus === 'real' && job.variant === variant && wanted(job.recording));
    return [
      name,
      ...rightWrong(ofReal('as recorded', isFirm)),
      ...rightWrong(ofReal(NOISY, isFirm)),
      count([...ofReal('as recorded', isOther), ...ofReal(NOISY, isOther)], (score) => score.wrongEver),
      ...rightWrong(of((job) => job.corpus === 'filtered')),
      ...simulatedColumns(of((job) => job.corpus === 'kit')),
    ];
  });
  return [
    table(
      'Each part of the engine off in turn',
      [
        '',
        `firm real (${firm}): right`,
        'wrong',
        `${NOISY}: right`,
        'wrong',
        `the others (${2 * (recordings.length - firm)}): wrong`,
        `B filtered (${filtered.length}): right`,
        'wrong',
        `simulated (${kit.length}): answered`,
        'right',
        'wrong at the end',
        'of sure readings',
        'polarity',
      ],
      rows,
    ),
    NOTES,
    `simulated: one in ${EVERY} of seeds ${QUOTED_SEEDS.from}–${QUOTED_SEEDS.from + CASES - 1}, with those in which nothing can be told`,
    realRecordingsHere ? '' : `Real recordings: skipped, ${REAL_ABSENT}.\n`,
    `${jobs.length} recordings, ${ABLATIONS.length} times each, in ${seconds.toFixed(0)} s on two processes`,
  ].join('\n');
}

const isFirm = (recording: RealRecording): boolean => recording.class === 'firm';
const isOther = (recording: RealRecording): boolean => !isFirm(recording);
const count = (scores: readonly Score[], of: (score: Score) => boolean): number => scores.filter(of).length;
const sum = (scores: readonly Score[], of: (score: Score) => number): number =>
  scores.reduce((total, score) => total + of(score), 0);

const rightWrong = (scores: readonly Score[]): number[] => [
  count(scores, (score) => score.right),
  count(scores, (score) => score.wrongEver),
];

const simulatedColumns = (scores: readonly Score[]): (number | string)[] => [
  count(scores, (score) => score.answered),
  count(scores, (score) => score.right),
  count(scores, (score) => score.wrongAtEnd),
  `${sum(scores, (score) => score.wrong)} of ${sum(scores, (score) => score.sure)}`,
  sum(scores, (score) => score.flipped),
];
