/** Jobs on two processes; results in the order of the jobs, whichever finishes first. */
import { type ChildProcess, fork } from 'node:child_process';

const PROCESSES = 2;

/** @param worker file of the process: see `serveJobs` */
export function runJobs<Job extends object, Result>(worker: string, jobs: readonly Job[]): Promise<Result[]> {
  const results: Result[] = new Array(jobs.length);
  let next = 0;
  const serve = (process: ChildProcess): Promise<void> =>
    new Promise((resolve, reject) => {
      const send = (): void => {
        const index = next++;
        if (index < jobs.length) process.send({ index, job: jobs[index] as Job });
        else {
          process.removeAllListeners('exit');
          process.disconnect();
          resolve();
        }
      };
      process.on('message', ({ index, result }: { index: number; result: Result }) => {
        results[index] = result;
        send();
      });
      process.on('exit', (code) => reject(new Error(`a process of the case bench ended with status ${code}`)));
      process.on('error', reject);
      send();
    });
  const processes = Array.from({ length: Math.min(PROCESSES, jobs.length) }, () => fork(worker));
  return Promise.all(processes.map(serve))
    .then(() => results)
    .finally(() => {
      for (const process of processes) process.kill();
    });
}
