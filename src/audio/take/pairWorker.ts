/** Cuts one pair's hits out of a take, beside the page: files in, two streams of pieces out. */
import { cutPieces } from '../../take/pairs/cutPieces';
import { type AlignedTrack, aligned } from '../../take/report/tracks';
import { openTake } from './openTake';
import type { CutPair, FromPairWorker } from './pairMessages';

const tell = (message: FromPairWorker, transfer: Transferable[] = []): void => postMessage(message, { transfer });

addEventListener('message', (event: MessageEvent<CutPair>) => void cut(event.data));

async function cut({ files, told, a, b, places }: CutPair): Promise<void> {
  try {
    const opened = await openTake(files, told);
    const { tracks } = opened;
    const take = aligned(tracks);
    const { sampleRate, lengths, hits } = places;
    const starts = hits.map(({ pieceSeconds }) => Math.round(pieceSeconds * sampleRate));
    const streamOf = async (file: string): Promise<Float32Array> => {
      const track = take.tracks[tracks.findIndex((one) => one.file === file)] ?? null;
      if (track === null) throw new Error(`${file} isn’t there any more`);
      return joined(await cutPieces(track satisfies AlignedTrack, starts, lengths.frames));
    };
    const [ofA, ofB] = [await streamOf(a), await streamOf(b)];
    opened.close();
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
