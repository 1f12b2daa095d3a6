/** `npm run -s measure -- FILE.wav …` */
import { writeSync } from 'node:fs';
import { type CommandOutcome, runMeasure } from './run';
import { runTake } from './takeRun';

/** All of it, also into a pipe whose reader is slow or gone: the process must not end before, nor with a stack trace. */
function writeAll(fd: number, text: string): void {
  const bytes = Buffer.from(text);
  for (let at = 0; at < bytes.length; ) {
    try {
      at += writeSync(fd, bytes, at);
    } catch (thrown) {
      if ((thrown as NodeJS.ErrnoException).code !== 'EAGAIN') return;
    }
  }
}

function end({ stdout, stderr, status }: CommandOutcome): void {
  writeAll(1, stdout);
  writeAll(2, stderr);
  process.exitCode = status;
}

const args = process.argv.slice(2);
// how far it has come is for people at a terminal
const tell = (text: string): void => writeAll(2, process.stderr.isTTY ? `\r${text.padEnd(70)}` : '');
if (args.some((arg) => arg === '--take' || arg.startsWith('--take='))) void runTake(args, tell).then(end);
else end(runMeasure(args));
