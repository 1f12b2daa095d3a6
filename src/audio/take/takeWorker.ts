/** Reads a take beside the page: files in, a report out. Cancelled by ending the worker. */
import { openChannels } from '../../files/openChannels';
import { blobSlices } from '../../files/slices';
import type { ReadPair } from '../../take/pairs/readWhole';
import { readTake } from '../../take/readTake';
import { TakeError } from '../../take/report/tracks';
import { toldTracks } from '../../take/told/told';
import type { FromTakeWorker, ReadTake } from './takeMessages';

const tell = (message: FromTakeWorker): void => postMessage(message);

/** between two looks at how far it is, ms: each is a message */
const PROGRESS_MS = 100;

addEventListener('message', (event: MessageEvent<ReadTake>) => void read(event.data));

async function read({ files, told, temperatureC }: ReadTake): Promise<void> {
  try {
    const opened = await Promise.all(files.map((file) => openChannels(file.name, blobSlices(file))));
    let toldMs = 0;
    const { tracks, mics, whole } = toldTracks(
      opened.flatMap((file) => file.tracks),
      told,
    );
    const pairs: ReadPair[] = [];
    const report = await readTake(tracks, {
      temperatureC,
      mics,
      onProgress(progress) {
        const nowMs = performance.now();
        if (nowMs - toldMs < PROGRESS_MS) return;
        toldMs = nowMs;
        tell({ type: 'progress', progress });
      },
      onPair: (pair) => void pairs.push(pair),
      onDrum: (drum) => tell({ type: 'drum', drum, pairs: pairs.splice(0) }),
    });
    for (const { close } of opened) close();
    tell({ type: 'report', report: whole(report) });
  } catch (thrown) {
    const text =
      thrown instanceof TakeError
        ? thrown.message
        : `The take can’t be read (${String(thrown)}); the files are unchanged.`;
    tell({ type: 'failed', text });
  }
}
