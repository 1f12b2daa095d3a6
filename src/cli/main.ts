/** `npm run -s measure -- FILE.wav …` */
import { writeSync } from 'node:fs';
import { runMeasure } from './run';

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

const { stdout, stderr, status } = runMeasure(process.argv.slice(2));
writeAll(1, stdout);
writeAll(2, stderr);
process.exitCode = status;
