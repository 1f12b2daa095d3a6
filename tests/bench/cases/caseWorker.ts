/** A process that does one job after another; started by `runCases`. */
import { runCaseJob } from './caseJob';
import type { CaseWork } from './runCases';
import { serveJobs } from './serveJobs';

serveJobs(({ job, changes, own }: CaseWork) => runCaseJob(job, changes, own));
