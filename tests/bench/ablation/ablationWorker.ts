/** A process that does one job after another; started by `ablationTable`. */

import { serveJobs } from '../cases/serveJobs';
import { runAblationJob } from './ablationJob';

serveJobs(runAblationJob);
