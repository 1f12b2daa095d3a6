/** The engine and its peers over many recordings, on two processes. */
import { fileURLToPath } from 'node:url';
import type { TuningChanges } from '../../../src/dsp/tuning/tuned';
import type { CaseJob, CaseResult } from './caseJob';
import { runJobs } from './runJobs';

export interface CaseWork {
  job: CaseJob;
  changes: TuningChanges;
  own: boolean;
}

const WORKER = fileURLToPath(new URL('./caseWorker.ts', import.meta.url));

/** @param changes of the engine's tuning @param own the engine alone */
export const runCases = (jobs: readonly CaseJob[], changes: TuningChanges, own = false): Promise<CaseResult[]> =>
  runJobs<CaseWork, CaseResult>(
    WORKER,
    jobs.map((job) => ({ job, changes, own })),
  );
