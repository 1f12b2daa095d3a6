/** One recording through the engine, whole and with each of its parts off: the unit of work that goes to a worker. */
import { type TuningChanges, tuningParts } from '../../../src/dsp/tuning/tuned';
import { filtered } from '../../support/sound/filtered';
import type { RealRecording } from '../../support/sound/realRecordings';
import { type CaseJob, type CaseSound, soundOf } from '../cases/caseJob';
import { readOurs } from '../cases/ours';
import { type Score, scoreOurs } from '../cases/score';

/** The whole engine, then each part off. */
export const ABLATIONS: readonly { name: string; changes: TuningChanges }[] = [
  { name: 'everything on', changes: {} },
  ...tuningParts().map((path) => ({ name: `${path.replace('parts.', '')} off`, changes: { [path]: false } })),
];

/** A case of the case bench, or a real recording with one channel filtered: fourth order, as in tests/dsp/filtered.test.ts. */
export type AblationJob = CaseJob | { corpus: 'filtered'; recording: RealRecording; kind: 'high' | 'low'; hz: number };

function heard(job: AblationJob): CaseSound {
  if (job.corpus !== 'filtered') return soundOf(job);
  const sound = soundOf({ corpus: 'real', recording: job.recording, variant: 'as recorded' });
  const once = filtered(sound.b, job.kind, job.hz, sound.sampleRate);
  return { ...sound, b: filtered(once, job.kind, job.hz, sound.sampleRate) };
}

/** A score for each of ABLATIONS. */
export function runAblationJob(job: AblationJob): Score[] {
  const { a, b, sampleRate, options, judge } = heard(job);
  return ABLATIONS.map(({ changes }) => scoreOurs(readOurs(a, b, sampleRate, { ...options, changes }), judge));
}
