/** Jobs on two processes; results in the order of the jobs, whichever finishes first. */
import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { CaseJob, CaseResult } from './caseJob';

const WORKER = fileURLToPath(new URL('./caseWorker.ts', import.meta.url));
const PROCESSES = 2;

export function runCases(jobs: readonly CaseJob[]): Promise<CaseResult[]> {
  const results: CaseResult[] = new Array(jobs.length);
  let next = 0;
  const serve = (worker: ChildProcess): Promise<void> =>
    new Promise((resolve, reject) => {
      const send = (): void => {
        const index = next++;
        if (index < jobs.length) worker.send({ index, job: jobs[index] as CaseJob });
        else {
          worker.removeAllListeners('exit');
          worker.disconnect();
          resolve();
        }
      };
      worker.on('message', ({ index, result }: { index: number; result: CaseResult }) => {
        results[index] = result;
        send();
      });
      worker.on('exit', (code) => reject(new Error(`a process of the case bench ended with status ${code}`)));
      worker.on('error', reject);
      send();
    });
  const workers = Array.from({ length: Math.min(PROCESSES, jobs.length) }, () => fork(WORKER));
  return Promise.all(workers.map(serve))
    .then(() => results)
    .finally(() => {
      for (const worker of workers) worker.kill();
    });
}
