/** A process that gathers one recording's choices after another. */
import { serveJobs } from '../cases/serveJobs';
import { choicesOf } from './gather';

serveJobs(choicesOf);
