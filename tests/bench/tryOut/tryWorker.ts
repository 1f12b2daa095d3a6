/** A process that tries one case after another; started by `tryTables`. */
import { serveJobs } from '../cases/serveJobs';
import { runTryJob, type TryJob } from './tryJob';

serveJobs((job: TryJob) => runTryJob(job));
