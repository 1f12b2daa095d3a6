/** One recording through the engine and its peers: the unit of work that goes to a worker. */
import { type PairKindId, pairKind } from '../../../src/advice/plan/pairKinds';
import type { TuningChanges } from '../../../src/dsp/tuning/tuned';
import type { CaseGroup } from '../../cases/case';
import { drawCase } from '../../cases/drawCase';
import { Judge } from '../../cases/judge';
import { renderCase } from '../../cases/renderCase';
import type { RealRecording } from '../../support/sound/realRecordings';
import { readOurs } from './ours';
import { PEERS, type Peer, readPeers } from './peers';
import { realCase, type Variant } from './realCases';
import { type AnswerJudge, type Score, scoreOurs, scorePeer } from './score';

export const OURS = 'Crosshead';
export const METHODS = [OURS, ...PEERS] as const;
export type Method = typeof OURS | Peer;

export type CaseJob =
  | { corpus: 'kit'; seed: number; group: CaseGroup; kind: PairKindId }
  | { corpus: 'real'; recording: RealRecording; variant: Variant };

/** the peers' are left out where nobody asked for them */
export type CaseResult = Record<typeof OURS, Score> & Partial<Record<Peer, Score>>;

const NEAR_LAG_MS = 11;

/** What is read, what it is read with, and who judges it. */
export interface CaseSound {
  a: Float32Array;
  b: Float32Array;
  sampleRate: number;
  options: { maxLagMs: number; hits?: number };
  judge: AnswerJudge;
}

export function soundOf(job: CaseJob): CaseSound {
  if (job.corpus === 'kit') {
    const made = drawCase(job.seed);
    return { ...renderCase(made), options: { maxLagMs: pairKind(made.kind).maxLagMs }, judge: new Judge(made) };
  }
  const { a, b, sampleRate, hits, judge } = realCase(job.recording, job.variant);
  const options = hits === undefined ? { maxLagMs: NEAR_LAG_MS } : { maxLagMs: NEAR_LAG_MS, hits };
  return { a, b, sampleRate, options, judge };
}

/** @param changes of the engine's tuning @param own the engine alone */
export function runCaseJob(job: CaseJob, changes: TuningChanges = {}, own = false): CaseResult {
  const { a, b, sampleRate, options, judge } = soundOf(job);
  const ours = scoreOurs(readOurs(a, b, sampleRate, { ...options, changes }), judge);
  if (own) return { [OURS]: ours };
  const peers = readPeers(a, b, sampleRate, options);
  const scores = PEERS.map((peer) => [peer, scorePeer(peers[peer], judge, peer === 'zero-lag sign')]);
  return { ...Object.fromEntries(scores), [OURS]: ours } as CaseResult;
}
