/**
 * What the samples of a WAV are, from its `fmt ` chunk: PCM and float, plain or EXTENSIBLE.
 * Coding numbers: RFC 2361 (registered WAVE codecs); sample layout: EBU Tech 3285.
 */
import { cutShort, WavError } from './wavChunks';

export interface SampleFormat {
  /** Hz */
  readonly sampleRate: number;
  readonly channels: number;
  readonly coding: 'pcm' | 'float';
  /** of one sample as stored (its container) */
  readonly sampleBytes: number;
  /** bits that count, left-justified in it */
  readonly validBits: number;
  /** one sample at a byte offset, full scale ±1 */
  readonly sample: Sampler;
  /** the header's own figures, for `contradiction` */
  readonly told: { readonly frameBytes: number; readonly bits: number; readonly bytesPerSecond: number };
}

export type Sampler = (view: DataView, at: number) => number;

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

/**
 * @param view the content of the `fmt ` chunk, as far as it is there
 * @throws WavError `unsupported` or `too-short`
 */
export function sampleFormat(view: DataView, littleEndian: boolean): SampleFormat {
  if (view.byteLength < 16) throw cutShort();
  const u16 = (at: number): number => view.getUint16(at, littleEndian);

  let coding = u16(0);
  const channels = u16(2);
  const sampleRate = view.getUint32(4, littleEndian);
  const frameBytes = u16(12);
  const told = u16(14);
  const extensible = coding === EXTENSIBLE;
  if (extensible) coding = subFormat(view, littleEndian);
  if (coding !== PCM && coding !== FLOAT) throw unsupportedCoding(coding);
  if (channels === 0 || sampleRate === 0 || told === 0) {
    throw new WavError('unsupported', 'its header makes no sense (no channels, rate or bits); export it again.');
  }

  // the container counts, not the bits inside it: 20 valid bits sit left-justified in 24
  const sampleBytes = frameBytes % channels === 0 && frameBytes > 0 ? frameBytes / channels : Math.ceil(told / 8);
  const bits = sampleBytes * 8;
  if (told > bits) {
    throw new WavError('unsupported', `its header contradicts itself (${told} bits in ${bits}); export it again.`);
  }
  const isFloat = coding === FLOAT;
  const sample = sampler(isFloat, sampleBytes, littleEndian);
  if (!sample) {
    const kind = isFloat ? 'floating-point' : 'integer';
    throw new WavError(
      'unsupported',
      `its ${bits}-bit ${kind} samples can’t be read; export it as 24-bit or 32-bit float.`,
    );
  }
  // 0 stands in many for "all of them"
  const valid = extensible && u16(18) > 0 && u16(18) < told ? u16(18) : told;
  return {
    sampleRate,
    channels,
    coding: isFloat ? 'float' : 'pcm',
    sampleBytes,
    validBits: valid,
    sample,
    told: { frameBytes, bits: told, bytesPerSecond: view.getUint32(8, littleEndian) },
  };
}

/**
 * Rate, channels and bits stand in a header twice: where they don't go together, one of them is wrong, and nobody knows which.
 * @returns null: they do
 */
export function contradiction({ sampleRate, channels, told }: SampleFormat): WavError | null {
  const { frameBytes, bits, bytesPerSecond } = told;
  const contradicts = (what: string): WavError =>
    new WavError('unsupported', `its header contradicts itself (${what}); export it again.`);
  if (frameBytes !== channels * Math.ceil(bits / 8)) {
    return contradicts(
      `${channels === 1 ? 'one channel' : `${channels} channels`} of ${bits} bits in ${frameBytes} bytes`,
    );
  }
  // 0: not told
  if (bytesPerSecond !== 0 && bytesPerSecond !== (sampleRate * frameBytes) % 2 ** 32) {
    return contradicts(`${sampleRate} Hz of ${frameBytes} bytes, but ${bytesPerSecond} bytes a second`);
  }
  return null;
}

function subFormat(view: DataView, littleEndian: boolean): number {
  if (view.byteLength < 40) throw cutShort();
  const coding = view.getUint32(24, littleEndian);
  for (let i = 0; i < GUID_TAIL.length; i++) {
    // the third field (`10 00`) follows the file's byte order
    const expected = GUID_TAIL[!littleEndian && (i === 2 || i === 3) ? 5 - i : i];
    if (view.getUint8(28 + i) !== expected) throw unsupportedCoding(EXTENSIBLE);
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
function sampler(isFloat: boolean, bytes: number, little: boolean): Sampler | null {
  if (isFloat) {
    if (bytes === 4) return (view, at) => view.getFloat32(at, little);
    return bytes === 8 ? (view, at) => view.getFloat64(at, little) : null;
  }
  if (bytes === 1) return (view, at) => (view.getUint8(at) - 128) / 128;
  if (bytes === 2) return (view, at) => view.getInt16(at, little) / 32768;
  if (bytes === 3) {
    if (little) return (view, at) => (view.getUint16(at, true) | (view.getInt8(at + 2) << 16)) / 8388608;
    return (view, at) => ((view.getInt8(at) << 16) | view.getUint16(at + 1, false)) / 8388608;
  }
  if (bytes === 4) return (view, at) => view.getInt32(at, little) / 2147483648;
  // wider integers: their upper 32 bits are all that a 32-bit float can hold
  if (bytes <= 8) return (view, at) => view.getInt32(little ? at + bytes - 4 : at, little) / 2147483648;
  return null;
}
