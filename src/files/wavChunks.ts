/**
 * The chunks of a WAVE file: RIFF, RIFX (big-endian) and RF64 (64-bit sizes in a `ds64` chunk; EBU Tech 3306,
 * ITU-R BS.2088). Odd-sized chunks are followed by a pad byte that their size does not count (EBU Tech 3285).
 */

export type WavErrorCode = 'not-audio' | 'unsupported' | 'empty' | 'too-short';

/** The only thing that reading a WAV throws: one sentence that follows a file's name ("take.wav: …"). */
export class WavError extends Error {
  constructor(
    readonly code: WavErrorCode,
    text: string,
  ) {
    super(text);
    this.name = 'WavError';
  }
}

export interface WavChunks {
  littleEndian: boolean;
  /** offset and bytes of the `fmt ` chunk's content */
  formatAt: number;
  formatBytes: number;
  /** offset of the samples, and the bytes of them that are there */
  dataAt: number;
  dataBytes: number;
  /** the file is shorter than its header says, or its header was never finished */
  truncated: boolean;
}

const fourCc = (text: string): number =>
  (text.charCodeAt(0) << 24) | (text.charCodeAt(1) << 16) | (text.charCodeAt(2) << 8) | text.charCodeAt(3);

const RIFF = fourCc('RIFF');
const RIFX = fourCc('RIFX');
const RF64 = fourCc('RF64');
const BW64 = fourCc('BW64');
const WAVE = fourCc('WAVE');
const FMT = fourCc('fmt ');
const DATA = fourCc('data');
const DS64 = fourCc('ds64');
/** a 32-bit size that says "look in ds64", or "not known when the header was written" */
const UNSIZED = 0xffffffff;

/** Kinds of file that people try instead, by their first bytes. */
const OTHER_FILES: [at: number, bytes: string, name: string][] = [
  [0, 'fLaC', 'a FLAC file'],
  [0, 'OggS', 'an Ogg file'],
  [0, 'ID3', 'an MP3 file'],
  [8, 'AIF', 'an AIFF file'],
  [0, 'caff', 'a CAF file'],
  [4, 'ftyp', 'an MPEG-4 file'],
  [0, 'riff', 'a Wave64 file'],
];

/**
 * @throws WavError `not-audio`, `too-short` or `empty`
 */
export function findChunks(view: DataView): WavChunks {
  const id = (at: number): number => view.getInt32(at, false);
  const length = view.byteLength;
  if (length === 0) throw new WavError('empty', 'the file is empty; record it again or choose another.');
  const head = length >= 4 ? id(0) : 0;
  const known = head === RIFF || head === RIFX || head === RF64 || head === BW64;
  if (!known) throw new WavError('not-audio', `${whatItIs(view)}; save the recording as WAV, then try again.`);
  if (length < 12) throw cutShort();
  if (id(8) !== WAVE) throw new WavError('not-audio', 'this is not a WAV recording; save it as WAV and try again.');

  const littleEndian = head !== RIFX;
  const unfinished = view.getUint32(4, littleEndian) === 0;
  let dataSize64 = -1;
  let formatAt = -1;
  let formatBytes = 0;
  for (let at = 12; at + 8 <= length; ) {
    const name = id(at);
    const size = view.getUint32(at + 4, littleEndian);
    const content = at + 8;
    if (name === DATA) {
      let wanted = size;
      if (size === UNSIZED && dataSize64 >= 0) wanted = dataSize64;
      const toTheEnd = (size === UNSIZED && dataSize64 < 0) || (size === 0 && unfinished);
      if (toTheEnd) wanted = length - content;
      if (wanted > 0 && formatAt >= 0) {
        const dataBytes = Math.min(wanted, length - content);
        const truncated = wanted > dataBytes || (unfinished && size === 0);
        return { littleEndian, formatAt, formatBytes, dataAt: content, dataBytes, truncated };
      }
      if (wanted > 0)
        throw new WavError('not-audio', 'its samples come before their format, so it can’t be read; export it again.');
    } else if (name === FMT && formatAt < 0) {
      formatAt = content;
      formatBytes = Math.min(size, length - content);
    } else if (name === DS64 && size >= 16 && content + 16 <= length) {
      dataSize64 = view.getUint32(content + 8, littleEndian) + view.getUint32(content + 12, littleEndian) * 2 ** 32;
    }
    at = content + size + (size & 1);
  }
  if (formatBytes < 16) throw cutShort();
  throw new WavError('empty', 'it holds no audio; record it again or choose another.');
}

export function cutShort(): WavError {
  return new WavError('too-short', 'the file ends inside its header; copy or export it again.');
}

function whatItIs(view: DataView): string {
  for (const [at, bytes, name] of OTHER_FILES) {
    let same = view.byteLength >= at + bytes.length;
    for (let i = 0; same && i < bytes.length; i++) same = view.getUint8(at + i) === bytes.charCodeAt(i);
    if (same) return `this is ${name}, not a WAV`;
  }
  return 'this is not a WAV recording';
}
