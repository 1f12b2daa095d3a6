/**
 * Reads WAV: PCM of 8 to 64 bits, float of 32 and 64 bits, plain or EXTENSIBLE, in RIFF, RIFX or RF64. Pure: bytes in,
 * samples out, decoded only where they are asked for, so that a long file needs no second copy of itself.
 * Coding numbers: RFC 2361 (registered WAVE codecs); sample layout: EBU Tech 3285.
 */
import { cutShort, findChunks, WavError } from './wavChunks';

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

const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;
/** What a coding's number stands for, where people meet it. */
const CODING_NAMES: Record<number, string> = {
  2: 'ADPCM',
  6: 'A-law',
  7: 'µ-law',
  17: 'IMA ADPCM',
  49: 'GSM 6.10',
  80: 'MPEG',
  85: 'MP3',
  8192: 'AC-3',
};
/** bytes 4–15 of an EXTENSIBLE sub-format whose first four are an ordinary coding number, little-endian */
const GUID_TAIL = [0, 0, 16, 0, 128, 0, 0, 170, 0, 56, 155, 113];

/** One sample at a byte offset, full scale ±1. */
type Sampler = (at: number) => number;

/**
 * @param bytes the whole file
 * @throws WavError and nothing else: `not-audio`, `unsupported`, `empty` or `too-short`, one sentence each
 */
export function readWav(bytes: Uint8Array): Wav {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { littleEndian, formatAt, formatBytes, dataAt, dataBytes, truncated } = findChunks(view);
  if (formatBytes < 16) throw cutShort();
  const u16 = (at: number): number => view.getUint16(formatAt + at, littleEndian);

  let coding = u16(0);
  const channels = u16(2);
  const sampleRate = view.getUint32(formatAt + 4, littleEndian);
  const blockBytes = u16(12);
  const validBits = u16(14);
  if (coding === EXTENSIBLE) coding = subFormat(view, formatAt, formatBytes, littleEndian);
  if (coding !== PCM && coding !== FLOAT) throw unsupportedCoding(coding);
  if (channels === 0 || sampleRate === 0 || validBits === 0) {
    throw new WavError('unsupported', 'its header makes no sense (no channels, rate or bits); export it again.');
  }

  // the container counts, not the bits inside it: 20 valid bits sit left-justified in 24
  const sampleBytes = blockBytes % channels === 0 && blockBytes > 0 ? blockBytes / channels : Math.ceil(validBits / 8);
  const bits = sampleBytes * 8;
  if (validBits > bits) {
    throw new WavError('unsupported', `its header contradicts itself (${validBits} bits in ${bits}); export it again.`);
  }
  const isFloat = coding === FLOAT;
  const sample = sampler(view, isFloat, sampleBytes, littleEndian);
  if (!sample) {
    const kind = isFloat ? 'floating-point' : 'integer';
    throw new WavError(
      'unsupported',
      `its ${bits}-bit ${kind} samples can’t be read; export it as 24-bit or 32-bit float.`,
    );
  }

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
      for (let i = 0; i < wanted; i++, at += frameBytes) out[i] = sample(at);
    }
    return wanted;
  };

  return {
    sampleRate,
    channels,
    frames,
    coding: isFloat ? 'float' : 'pcm',
    bits,
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

function subFormat(view: DataView, formatAt: number, formatBytes: number, littleEndian: boolean): number {
  if (formatBytes < 40) throw cutShort();
  const coding = view.getUint32(formatAt + 24, littleEndian);
  for (let i = 0; i < GUID_TAIL.length; i++) {
    // the third field (`10 00`) follows the file's byte order
    const expected = GUID_TAIL[!littleEndian && (i === 2 || i === 3) ? 5 - i : i];
    if (view.getUint8(formatAt + 28 + i) !== expected) throw unsupportedCoding(EXTENSIBLE);
  }
  return coding;
}

function unsupportedCoding(coding: number): WavError {
  const name = CODING_NAMES[coding] ? `${CODING_NAMES[coding]}, ` : '';
  return new WavError(
    'unsupported',
    `its samples are coded in a way that can’t be read (${name}coding ${coding}); export it as PCM or float WAV.`,
  );
}

/** null when there is no such sample; integers of one byte are unsigned, wider ones signed. */
function sampler(view: DataView, isFloat: boolean, bytes: number, little: boolean): Sampler | null {
  if (isFloat) {
    if (bytes === 4) return (at) => view.getFloat32(at, little);
    return bytes === 8 ? (at) => view.getFloat64(at, little) : null;
  }
  if (bytes === 1) return (at) => (view.getUint8(at) - 128) / 128;
  if (bytes === 2) return (at) => view.getInt16(at, little) / 32768;
  if (bytes === 3) {
    if (little) return (at) => (view.getUint16(at, true) | (view.getInt8(at + 2) << 16)) / 8388608;
    return (at) => ((view.getInt8(at) << 16) | view.getUint16(at + 1, false)) / 8388608;
  }
  if (bytes === 4) return (at) => view.getInt32(at, little) / 2147483648;
  // wider integers: their upper 32 bits are all that a 32-bit float can hold
  if (bytes <= 8) return (at) => view.getInt32(little ? at + bytes - 4 : at, little) / 2147483648;
  return null;
}
