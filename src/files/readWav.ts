/**
 * Reads WAV: PCM of 8 to 64 bits, float of 32 and 64 bits, plain or EXTENSIBLE, in RIFF, RIFX or RF64. Pure: bytes in,
 * samples out, decoded only where they are asked for, so that a long file needs no second copy of itself. A file that is too
 * large for memory is read by `openTrack`.
 */
import { findChunks, WavError } from './wavChunks';
import { sampleFormat } from './wavFormat';

export interface Wav {
  /** Hz */
  readonly sampleRate: number;
  readonly channels: number;
  /** sample frames that are there */
  readonly frames: number;
  readonly coding: 'pcm' | 'float';
  /** bits of a sample as stored (its container) */
  readonly bits: number;
  /** the file is shorter than its header says: read as far as it goes */
  readonly truncated: boolean;
  /** One channel (from 0), all frames unless told; full scale is ±1. Allocates. */
  read(channel: number, fromFrame?: number, frames?: number): Float32Array<ArrayBuffer>;
  /** Fill `out` with one channel from `fromFrame` on; returns the frames written. Allocates nothing. */
  readInto(channel: number, fromFrame: number, out: Float32Array): number;
}

/**
 * @param bytes the whole file
 * @throws WavError and nothing else: `not-audio`, `unsupported`, `empty` or `too-short`, one sentence each
 */
export function readWav(bytes: Uint8Array): Wav {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { littleEndian, formatAt, formatBytes, dataAt, dataBytes, truncated } = findChunks(view);
  const formatView = new DataView(view.buffer, view.byteOffset + formatAt, formatBytes);
  const { sampleRate, channels, coding, sampleBytes, sample } = sampleFormat(formatView, littleEndian);
  const isFloat = coding === 'float';

  const frameBytes = sampleBytes * channels;
  const frames = Math.floor(dataBytes / frameBytes);
  if (frames === 0) throw new WavError('empty', 'it holds no audio; record it again or choose another.');

  // aligned little-endian samples on a little-endian machine need no arithmetic per byte
  const start = bytes.byteOffset + dataAt;
  const direct = littleEndian && HOST_IS_LITTLE_ENDIAN && start % sampleBytes === 0;
  const count = frames * channels;
  const int16 = direct && !isFloat && sampleBytes === 2 ? new Int16Array(bytes.buffer, start, count) : null;
  const float32 = direct && isFloat && sampleBytes === 4 ? new Float32Array(bytes.buffer, start, count) : null;

  const readInto = (channel: number, fromFrame: number, out: Float32Array): number => {
    if (!(channel >= 0 && channel < channels)) {
      throw new RangeError(`channel must be 0…${channels - 1} but was ${channel}`);
    }
    const wanted = Math.max(0, Math.min(out.length, frames - fromFrame));
    if (int16) {
      for (let i = 0, k = fromFrame * channels + channel; i < wanted; i++, k += channels) out[i] = int16[k] / 32768;
    } else if (float32) {
      for (let i = 0, k = fromFrame * channels + channel; i < wanted; i++, k += channels) out[i] = float32[k];
    } else {
      let at = dataAt + fromFrame * frameBytes + channel * sampleBytes;
      for (let i = 0; i < wanted; i++, at += frameBytes) out[i] = sample(view, at);
    }
    return wanted;
  };

  return {
    sampleRate,
    channels,
    frames,
    coding,
    bits: sampleBytes * 8,
    truncated,
    readInto,
    read(channel, fromFrame = 0, length = frames - fromFrame) {
      const out = new Float32Array(Math.max(0, Math.min(length, frames - fromFrame)));
      readInto(channel, fromFrame, out);
      return out;
    },
  };
}

const HOST_IS_LITTLE_ENDIAN = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;
