/** A FLAC file of any size as a track: its frames are found, and decoded, as they are asked for. */
import { answeredBy, type Slices } from '../slices';
import { framesToRead, type Track } from '../track';
import { WavError } from '../wavChunks';
import { createDecoder, DECODED_BITS } from './decode';
import { type Frame, Frames } from './frames';
import { type StreamInfo, streamInfo } from './streamInfo';

/** sample frames that are decoded at once, at least, where more is asked for than a frame has */
const BATCH = 1 << 16;

/** @param start where `fLaC` stands @throws WavError; whatever `slices` rejects with */
export async function openFlac(slices: Slices, start: number): Promise<Track> {
  const info = await answeredBy(streamInfo(start), slices);
  const { sampleRate, channels, bits } = info;
  if (!DECODED_BITS.includes(bits)) {
    throw new WavError('unsupported', `its ${bits}-bit FLAC samples can’t be read; export it as 24-bit WAV.`);
  }
  const found = new Frames(slices, info);
  const { frames, isWhole } = await lengthOf(slices, info, found);
  const decoder = await createDecoder(channels, bits);

  // what was decoded last, and what follows it
  let decoded: Float32Array[] = [];
  let decodedFrom = 0;
  let decodedTo = 0;
  let next = info.soundAt;
  /** Has the frame with `from` decoded, and those after it up to `to`. */
  const decode = async (from: number, to: number): Promise<void> => {
    let frame = from === decodedTo ? await found.at(next) : await found.holding(from);
    if (frame?.fromFrame !== from && from === decodedTo) frame = await found.holding(from);
    if (!frame) throw damagedAt(from / sampleRate);
    const batch: Frame[] = [];
    const first = frame.fromFrame;
    let end = first;
    for (; frame && frame.fromFrame === end; frame = await found.at(next)) {
      batch.push(frame);
      end += frame.frames;
      next = frame.to;
      if (end >= to || end - first >= BATCH) break;
    }
    decodedTo = -1;
    decoded = await decoder.decode(
      batch.map(({ bytes }) => bytes),
      first,
      end - first,
    );
    [decodedFrom, decodedTo] = [first, end];
  };

  const read = async (fromFrame: number, into: readonly (Float32Array | null)[]): Promise<number> => {
    const wanted = framesToRead(fromFrame, into, channels, frames);
    for (let done = 0; done < wanted; ) {
      const from = fromFrame + done;
      if (from < decodedFrom || from >= decodedTo) await decode(from, fromFrame + wanted);
      const count = Math.min(wanted - done, decodedTo - from);
      for (const [channel, out] of into.entries()) {
        out?.set((decoded[channel] as Float32Array).subarray(from - decodedFrom, from - decodedFrom + count), done);
      }
      done += count;
    }
    return wanted;
  };

  // one after the other: they share a decoder
  let last: Promise<unknown> = Promise.resolve();
  return {
    kind: 'flac',
    sampleRate,
    channels,
    frames,
    coding: 'pcm',
    bits,
    startFrame: info.timeReference,
    cut: isWhole ? null : 'cut-short',
    read(fromFrame, into) {
      const result = last.then(() => read(fromFrame, into));
      last = result.catch(() => {});
      return result;
    },
    close: () => decoder.free(),
  };
}

/** @throws WavError no sound, or none that goes with the header */
async function lengthOf(
  slices: Slices,
  info: StreamInfo,
  found: Frames,
): Promise<{ frames: number; isWhole: boolean }> {
  const first = await found.at(info.soundAt);
  if (first && first.fromFrame !== 0) {
    throw new WavError('unsupported', 'its beginning is missing; copy or export it again.');
  }
  const last = first && (await found.last());
  if (!last) {
    if (slices.size - info.soundAt < 64 || info.frames === 0) {
      throw new WavError('empty', 'it holds no audio; record it again or choose another.');
    }
    throw new WavError('unsupported', 'its sound doesn’t go with its header, or is damaged; export it again.');
  }
  const frames = last.fromFrame + last.frames;
  const isWhole = frames >= info.frames && (info.frames > 0 || (await found.endsAt(last.to)));
  return { frames, isWhole };
}

function damagedAt(seconds: number): WavError {
  return new WavError('unsupported', `it is damaged at ${seconds.toFixed(2)} s; copy or export it again.`);
}
