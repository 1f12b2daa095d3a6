/** A process that reads one simulated take after another; started by `takeTables`. */
import { serveJobs } from '../cases/serveJobs';
import { runTakeJob } from './takeJob';

serveJobs(runTakeJob);
