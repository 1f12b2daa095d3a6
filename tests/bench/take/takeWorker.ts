/** A process that reads one simulated take after another; started by `takeTables`. */
import { runTakeJob, type TakeJob } from './takeJob';

process.on('message', async ({ index, job }: { index: number; job: TakeJob }) => {
  process.send?.({ index, result: await runTakeJob(job) });
});
