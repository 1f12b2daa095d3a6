/** Cuts one pair's hits out of a take, beside the page: files in, two streams of pieces out. */
import { aligned } from '../../take/report/tracks';
import { PieceStore } from '../../take/steps/pieces';
import { openTake } from './openTake';
import type { CutPair, FromPairWorker } from './pairMessages';

const tell = (message: FromPairWorker, transfer: Transferable[] = []): void => postMessage(message, { transfer });

addEventListener('message', (event: MessageEvent<CutPair>) => void cut(event.data));

async function cut({ files, told, a, b, places }: CutPair): Promise<void> {
  try {
    const { tracks, close } = await openTake(files, told);
    const take = aligned(tracks);
    const { sampleRate, lengths, hits } = places;
    const starts = hits.map(({ pieceSeconds }) => Math.round(pieceSeconds * sampleRate));
    const pieces = new PieceStore(take.tracks, starts, lengths.frames);
    const streamOf = async (file: string): Promise<Float32Array> => {
      const t = tracks.findIndex((one) => one.file === file);
      if (!take.tracks[t]) throw new Error(`${file} isn’t there any more`);
      return joined(await pieces.of(t));
    };
    const [ofA, ofB] = [await streamOf(a), await streamOf(b)];
    close();
    tell({ type: 'cut', a: ofA, b: ofB }, [ofA.buffer, ofB.buffer]);
  } catch (thrown) {
    const why = thrown instanceof Error ? thrown.message : String(thrown);
    tell({ type: 'failed', text: `These hits can’t be read again (${why}); choose the tracks again.` });
  }
}

function joined(pieces: readonly Float32Array[]): Float32Array {
  const stream = new Float32Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    stream.set(piece, at);
    at += piece.length;
  }
  return stream;
}
