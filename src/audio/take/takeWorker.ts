/**
 * Reads a take beside the page: files in, a report out. One of these leads; the others are its hands and hear from it alone. The
 * page ends them all to cancel.
 */
import { CrewError } from '../../take/crew';
import { readTake } from '../../take/readTake';
import { TakeError } from '../../take/report/tracks';
import { crewOfHands } from './crewOfHands';
import { lendHand } from './hand';
import { openTake } from './openTake';
import type { FromTakeWorker, ReadTake, ToTakeWorker } from './takeMessages';

const tell = (message: FromTakeWorker): void => postMessage(message);

/** between two looks at how far it is, ms: each is a message */
const PROGRESS_MS = 100;

addEventListener('message', ({ data }: MessageEvent<ToTakeWorker>) => {
  if (data.type === 'help') lendHand(data.lead);
  else void read(data);
});

async function read({ files, told, temperatureC, hands }: ReadTake): Promise<void> {
  try {
    const opened = await openTake(files, told);
    let toldMs = 0;
    const report = await readTake(opened.tracks, {
      temperatureC,
      mics: opened.mics,
      crew: crewOfHands(hands, files, told, opened.found),
      onProgress(progress) {
        const nowMs = performance.now();
        if (nowMs - toldMs < PROGRESS_MS) return;
        toldMs = nowMs;
        tell({ type: 'progress', progress });
      },
      onDrum: (drum, pairs) => tell({ type: 'drum', drum, pairs }),
    });
    opened.close();
    tell({ type: 'report', report: opened.whole(report) });
  } catch (thrown) {
    const isTold = thrown instanceof TakeError || thrown instanceof CrewError;
    const text = isTold ? thrown.message : `The take can’t be read (${String(thrown)}); the files are unchanged.`;
    tell({ type: 'failed', text });
  }
}
