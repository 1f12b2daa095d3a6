/**
 * The chunks of a WAVE file: RIFF, RIFX (big-endian) and RF64 or BW64 (64-bit sizes in a `ds64` chunk; EBU Tech 3306,
 * ITU-R BS.2088). Odd-sized chunks are followed by a pad byte that their size does not count (EBU Tech 3285).
 */
import { type Asking, answered } from './slices';

export type WavErrorCode = 'not-audio' | 'unsupported' | 'empty' | 'too-short';

/** The only thing that reading the bytes of an audio file throws: one sentence that follows its name ("take.wav: …"). */
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
  /** of these, the second: the recorder stopped before it could write how much there is */
  unfinished: boolean;
  /** sample frames from midnight to the first one, from the `bext` chunk (EBU Tech 3285); null: it has none */
  timeReference: number | null;
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
const BEXT = fourCc('bext');
/** a 32-bit size that says "look in ds64", or "not known when the header was written" */
const UNSIZED = 0xffffffff;
const WRAP = 2 ** 32;
/** more chunks than this have no recording among them */
const MOST_CHUNKS = 10_000;
/** where the time reference stands in a `bext` chunk */
const TIME_REFERENCE_AT = 338;

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
 * @param view the whole file
 * @throws WavError `not-audio`, `too-short` or `empty`
 */
export const findChunks = (view: DataView): WavChunks => answered(chunksOf(view.byteLength), view);

/**
 * @param length bytes of the file @param readable what whoever asks can read, in words
 * @throws WavError `not-audio`, `too-short` or `empty`
 */
export function* chunksOf(length: number, readable = 'WAV'): Asking<WavChunks> {
  if (length === 0) throw new WavError('empty', 'the file is empty; record it again or choose another.');
  const head = yield { from: 0, bytes: 12 };
  const kind = length >= 4 ? head.getInt32(0) : 0;
  const known = kind === RIFF || kind === RIFX || kind === RF64 || kind === BW64;
  if (!known) {
    throw new WavError('not-audio', `${whatItIs(head, readable)}; save the recording as ${readable}, then try again.`);
  }
  if (length < 12) throw cutShort();
  if (head.getInt32(8) !== WAVE) {
    throw new WavError('not-audio', `this is not a ${readable} recording; save it as ${readable} and try again.`);
  }

  const littleEndian = kind !== RIFX;
  const riffSize = head.getUint32(4, littleEndian);
  const unfinished = riffSize === 0;
  let dataSize64 = -1;
  let formatBytes = 0;
  let found: Omit<WavChunks, 'timeReference'> | null = null;
  let timeReference: number | null = null;
  let formatAt = -1;
  for (let at = 12, chunks = 0; at + 8 <= length && chunks < MOST_CHUNKS; chunks++) {
    const chunk = yield { from: at, bytes: 8 };
    const name = chunk.getInt32(0);
    const content = at + 8;
    let size = chunk.getUint32(4, littleEndian);
    if (name === DATA && !found) {
      const rest = length - content;
      const unsized = size === UNSIZED;
      if (unsized && dataSize64 >= 0) size = dataSize64;
      const unknown = unsized && dataSize64 < 0;
      // a recorder that stopped left 0 where the size belongs
      const never = size === 0 && (unfinished || unsized || (yield* goesOn(length, content, riffSize, littleEndian)));
      if (unknown || never) size = rest;
      else if (kind === RIFF && !unsized && size > 0) size = yield* unwrapped(length, content, size);
      if (size > 0 && formatAt < 0)
        throw new WavError('not-audio', 'its samples come before their format, so it can’t be read; export it again.');
      if (size > 0) {
        const dataBytes = Math.min(size, rest);
        const truncated = size > dataBytes || never;
        found = { littleEndian, formatAt, formatBytes, dataAt: content, dataBytes, truncated, unfinished: never };
        if (timeReference !== null) break;
      }
    } else if (name === FMT && formatAt < 0) {
      formatAt = content;
      formatBytes = Math.min(size, length - content);
    } else if (name === DS64 && size >= 16 && content + 16 <= length) {
      const sizes = yield { from: content, bytes: 16 };
      dataSize64 = sizes.getUint32(8, littleEndian) + sizes.getUint32(12, littleEndian) * WRAP;
    } else if (name === BEXT && size >= TIME_REFERENCE_AT + 8 && content + TIME_REFERENCE_AT + 8 <= length) {
      timeReference = referenceIn(yield { from: content + TIME_REFERENCE_AT, bytes: 8 }, littleEndian);
      if (found) break;
    }
    at = content + size + (size % 2);
    // some writers leave the pad byte out
    if (size % 2 === 1 && at + 7 <= length && isCalled(yield { from: at - 1, bytes: 4 }, [FMT, DATA, BEXT])) at--;
  }
  if (found) return { ...found, timeReference };
  if (formatBytes < 16) throw cutShort();
  throw new WavError('empty', 'it holds no audio; record it again or choose another.');
}

export function cutShort(): WavError {
  return new WavError('too-short', 'the file ends inside its header; copy or export it again.');
}

/** @param at its eight bytes, the lower half first. null: no take starts so late */
export function referenceIn(at: DataView, littleEndian: boolean): number | null {
  const frames = at.getUint32(0, littleEndian) + at.getUint32(4, littleEndian) * WRAP;
  return Number.isSafeInteger(frames) ? frames : null;
}

const isCalled = (at: DataView, names: readonly number[]): boolean =>
  at.byteLength === 4 && names.includes(at.getInt32(0));

/** Whether bytes that no header counts follow an empty data chunk at the end of its RIFF, and are no chunk themselves. */
function* goesOn(length: number, content: number, riffSize: number, littleEndian: boolean): Asking<boolean> {
  if (length <= content || content < riffSize + 8) return false;
  return !(yield* endsAt(length, content, littleEndian));
}

/** Whether a chunk can end here: the file does, or one follows that fits into it. */
function* endsAt(length: number, at: number, littleEndian: boolean): Asking<boolean> {
  if (at === length) return true;
  if (at + 8 > length) return false;
  const next = yield { from: at, bytes: 8 };
  for (let i = 0; i < 4; i++) if (next.getUint8(i) < 0x20 || next.getUint8(i) > 0x7e) return false;
  return at + 8 + next.getUint32(4, littleEndian) <= length;
}

/** A size beyond 4 GiB that was written into 32 bits all the same: whole 4 GiB are added where only so the chunk ends well. */
function* unwrapped(length: number, content: number, size: number): Asking<number> {
  const wraps = Math.floor((length - content - size) / WRAP);
  if (wraps < 1 || (yield* endsAt(length, content + size + (size % 2), true))) return size;
  const whole = size + wraps * WRAP;
  return (yield* endsAt(length, content + whole + (whole % 2), true)) ? whole : size;
}

function whatItIs(view: DataView, readable: string): string {
  for (const [at, bytes, name] of OTHER_FILES) {
    let same = view.byteLength >= at + bytes.length;
    for (let i = 0; same && i < bytes.length; i++) same = view.getUint8(at + i) === bytes.charCodeAt(i);
    if (same) return `this is ${name}, not a ${readable}`;
  }
  return `this is not a ${readable} recording`;
}
