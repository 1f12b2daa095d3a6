/** One recording through the engine and its peers: the unit of work that goes to a worker. */
import { pairKind } from '../../../src/advice/plan/pairKinds';
import type { CaseGroup } from '../../cases/case';
import { drawCase } from '../../cases/drawCase';
import { Judge } from '../../cases/judge';
import { renderCase } from '../../cases/renderCase';
import type { RealRecording } from '../../support/sound/realRecordings';
import { readOurs } from './ours';
import { PEERS, type Peer, readPeers } from './peers';
import { realCase, type Variant } from './realCases';
import { type Score, scoreOurs, scorePeer } from './score';

export const OURS = 'Crosshead';
export const METHODS = [OURS, ...PEERS] as const;
export type Method = typeof OURS | Peer;

export type CaseJob =
  | { corpus: 'kit'; seed: number; group: CaseGroup }
  | { corpus: 'real'; recording: RealRecording; variant: Variant };

export type CaseResult = Record<Method, Score>;

const NEAR_LAG_MS = 11;

export function runCaseJob(job: CaseJob): CaseResult {
  if (job.corpus === 'kit') {
    const made = drawCase(job.seed);
    const { a, b, sampleRate } = renderCase(made);
    return compare(a, b, sampleRate, { maxLagMs: pairKind(made.kind).maxLagMs }, new Judge(made));
  }
  const { a, b, sampleRate, hits, judge } = realCase(job.recording, job.variant);
  return compare(
    a,
    b,
    sampleRate,
    hits === undefined ? { maxLagMs: NEAR_LAG_MS } : { maxLagMs: NEAR_LAG_MS, hits },
    judge,
  );
}

function compare(
  a: Float32Array,
  b: Float32Array,
  sampleRate: number,
  options: { maxLagMs: number; hits?: number },
  judge: { judge: Judge['judge'] },
): CaseResult {
  const peers = readPeers(a, b, sampleRate, options);
  const scores = PEERS.map((peer) => [peer, scorePeer(peers[peer], judge, peer === 'zero-lag sign')]);
  return { ...Object.fromEntries(scores), [OURS]: scoreOurs(readOurs(a, b, sampleRate, options), judge) } as CaseResult;
}
