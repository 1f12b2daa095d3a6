/** A WAV file of any size as a track: its chunks are found, and its samples read, a slice at a time. */
import { answeredBy, type Slices } from './slices';
import { framesToRead, type Track } from './track';
import { chunksOf, WavError } from './wavChunks';
import { contradiction, sampleFormat } from './wavFormat';

/** what is held of a file at once */
const PIECE_BYTES = 1 << 20;

/** @throws WavError; whatever `slices` rejects with */
export async function openWav(slices: Slices): Promise<Track> {
  const chunks = await answeredBy(chunksOf(slices.size, 'WAV or FLAC'), slices);
  const { littleEndian, dataAt, dataBytes, truncated, unfinished, timeReference } = chunks;
  // an EXTENSIBLE one has 40 bytes
  const head = await slices.read(chunks.formatAt, Math.min(chunks.formatBytes, 64));
  const format = sampleFormat(viewOf(head), littleEndian);
  const problem = contradiction(format);
  if (problem) throw problem;
  const { channels, sampleBytes, sample } = format;
  const frameBytes = sampleBytes * channels;
  const frames = Math.floor(dataBytes / frameBytes);
  if (frames === 0) throw new WavError('empty', 'it holds no audio; record it again or choose another.');
  const piece = Math.max(1, Math.floor(PIECE_BYTES / frameBytes));

  return {
    kind: 'wav',
    sampleRate: format.sampleRate,
    channels,
    frames,
    coding: format.coding,
    bits: format.validBits,
    startFrame: timeReference,
    cut: unfinished ? 'unfinished' : truncated ? 'cut-short' : null,
    async read(fromFrame, into) {
      const wanted = framesToRead(fromFrame, into, channels, frames);
      for (let done = 0; done < wanted; ) {
        const count = Math.min(piece, wanted - done);
        const view = viewOf(await slices.read(dataAt + (fromFrame + done) * frameBytes, count * frameBytes));
        if (view.byteLength < count * frameBytes) throw changedMeanwhile();
        for (const [channel, out] of into.entries()) {
          if (!out) continue;
          let at = channel * sampleBytes;
          for (let i = done; i < done + count; i++, at += frameBytes) out[i] = sample(view, at);
        }
        done += count;
      }
      return wanted;
    },
    close() {},
  };
}

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

export function changedMeanwhile(): WavError {
  return new WavError('too-short', 'the file got shorter while it was read; choose it again.');
}
