/** A process that does one job after another; started by `runCases`. */
import { type CaseJob, runCaseJob } from './caseJob';

process.on('message', (message: { index: number; job: CaseJob }) => {
  process.send?.({ index: message.index, result: runCaseJob(message.job) });
});
