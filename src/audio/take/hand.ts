/** One of the workers that do a take's long work: a task comes, what came of it goes back. */

import { alone, type Crew } from '../../take/crew';
import { aligned } from '../../take/report/tracks';
import { openTake } from './openTake';
import { buffersOf, type FromHand, type ToHand } from './takeMessages';

/** between two words on how far it is, ms */
const SHARE_MS = 100;

const CHANGED = 'The files changed while they were read; choose them again.';

/** Works for whoever is at the other end, until the worker is ended. */
export function lendHand(lead: MessagePort): void {
  const tell = (message: FromHand, transfer: Transferable[] = []): void => lead.postMessage(message, transfer);
  let crew: Promise<Crew> | null = null;
  lead.onmessage = async ({ data }: MessageEvent<ToHand>) => {
    try {
      if (data.type === 'files') {
        crew = open(data);
        await crew;
        return;
      }
      if (!crew) throw new Error('no files were given');
      const one = await crew;
      if (data.type === 'label') return tell({ type: 'labelled', labelled: await one.label(data.heard) });
      let toldMs = performance.now();
      const onShare = (share: number): void => {
        const nowMs = performance.now();
        if (nowMs - toldMs < SHARE_MS) return;
        toldMs = nowMs;
        tell({ type: 'share', share });
      };
      if (data.type === 'drum') return tell({ type: 'drum', drum: await one.readDrum(data.task, onShare) });
      const scans = await one.scan(data.tracks, onShare);
      tell({ type: 'scanned', scans }, buffersOf(scans));
    } catch (thrown) {
      const text = thrown instanceof Error ? thrown.message : String(thrown);
      tell({ type: data.type === 'files' ? 'failed' : 'refused', text });
    }
  };
}

/** @throws where it finds something else in the files than the one that leads */
async function open({ files, told, tracks }: Extract<ToHand, { type: 'files' }>): Promise<Crew> {
  const opened = await openTake(files, told);
  if (JSON.stringify(opened.found) !== JSON.stringify(tracks)) throw new Error(CHANGED);
  return alone(
    aligned(opened.tracks).tracks,
    tracks.map(({ file }) => file),
  );
}
