/** What stands before the sound in a FLAC file (RFC 9639, 8): its properties and, if it was told, when it was recorded. */
import type { Asking } from '../slices';
import { cutShort, referenceIn, WavError } from '../wavChunks';

export interface StreamInfo {
  /** Hz */
  sampleRate: number;
  channels: number;
  bits: number;
  /** sample frames in a block, at most */
  mostFrames: number;
  /** sample frames of the whole; 0: not known when it was written */
  frames: number;
  /** sample frames from midnight to the first one; null: not told */
  timeReference: number | null;
  /** where the first frame begins */
  soundAt: number;
}

const STREAMINFO = 0;
const APPLICATION = 2;
const COMMENT = 4;
/** more blocks than this are no recording's */
const MOST_BLOCKS = 1000;
/** a comment block is read so far; pictures have blocks of their own */
const MOST_COMMENT_BYTES = 1 << 18;
/** the tag in which FFmpeg carries a `bext` time reference over */
const TAG = 'TIME_REFERENCE=';
/** where the time reference stands in a `bext` chunk (EBU Tech 3285) */
const TIME_REFERENCE_AT = 338;

/**
 * Where `fLaC` stands: at the start, or behind tags that some put before it (ID3v2, section 3.1).
 * @returns null: this is no FLAC file
 */
export function* flacAt(): Asking<number | null> {
  const head = yield { from: 0, bytes: 10 };
  if (isText(head, 0, 'fLaC')) return 0;
  if (head.byteLength < 10 || !isText(head, 0, 'ID3')) return null;
  let bytes = 10;
  for (let i = 0; i < 4; i++) bytes += (head.getUint8(6 + i) & 0x7f) << (7 * (3 - i));
  return isText(yield { from: bytes, bytes: 4 }, 0, 'fLaC') ? bytes : null;
}

/** @param start where `fLaC` stands @throws WavError */
export function* streamInfo(start: number): Asking<StreamInfo> {
  let info: StreamInfo | null = null;
  let timeReference: number | null = null;
  let at = start + 4;
  for (let block = 0; ; block++) {
    const head = yield { from: at, bytes: 4 };
    if (head.byteLength < 4) throw cutShort();
    const kind = head.getUint8(0) & 0x7f;
    const bytes = head.getUint32(0) & 0xffffff;
    const content = at + 4;
    if (kind === STREAMINFO && !info) info = propertiesIn(yield { from: content, bytes: 34 });
    else if (kind === APPLICATION)
      timeReference ??= bextReference(yield { from: content, bytes: Math.min(bytes, 512) });
    else if (kind === COMMENT) {
      timeReference ??= tagReference(yield { from: content, bytes: Math.min(bytes, MOST_COMMENT_BYTES) });
    }
    at = content + bytes;
    if (head.getUint8(0) & 0x80) break;
    if (block > MOST_BLOCKS || !info) throw noSense();
  }
  if (!info) throw noSense();
  return { ...info, timeReference, soundAt: at };
}

function propertiesIn(view: DataView): StreamInfo {
  if (view.byteLength < 34) throw cutShort();
  // 20 bits of rate, 3 of channels, 5 of bits, 36 of length
  const packed = view.getUint32(10);
  const sampleRate = packed >>> 12;
  const bits = ((packed >> 4) & 31) + 1;
  const mostFrames = view.getUint16(2);
  if (sampleRate === 0 || bits < 4 || mostFrames < 16) throw noSense();
  return {
    sampleRate,
    channels: ((packed >> 9) & 7) + 1,
    bits,
    mostFrames,
    frames: (packed & 15) * 2 ** 32 + view.getUint32(14),
    timeReference: null,
    soundAt: 0,
  };
}

/** `riff` blocks hold the chunks of the WAV that a file was made from. */
function bextReference(view: DataView): number | null {
  if (!isText(view, 0, 'riff') || !isText(view, 4, 'bext')) return null;
  const at = 4 + 8 + TIME_REFERENCE_AT;
  return view.byteLength < at + 8 ? null : referenceIn(new DataView(view.buffer, view.byteOffset + at, 8), true);
}

/** Vorbis comments: a vendor's name, a count, then texts; each with its length before it, little-endian. */
function tagReference(view: DataView): number | null {
  const skip = (at: number): number => (at + 4 <= view.byteLength ? at + 4 + view.getUint32(at, true) : Infinity);
  for (let at = skip(0) + 4, next = skip(at); next <= view.byteLength; at = next, next = skip(at)) {
    const length = next - at - 4;
    if (length <= TAG.length || length > TAG.length + 16 || !isText(view, at + 4, TAG, true)) continue;
    let frames = 0;
    for (let i = at + 4 + TAG.length; i < next; i++) {
      const digit = view.getUint8(i) - 48;
      frames = digit >= 0 && digit <= 9 ? frames * 10 + digit : Number.NaN;
    }
    return Number.isSafeInteger(frames) ? frames : null;
  }
  return null;
}

function isText(view: DataView, at: number, text: string, anyCase = false): boolean {
  if (at + text.length > view.byteLength) return false;
  for (let i = 0; i < text.length; i++) {
    const byte = view.getUint8(at + i);
    const letter = anyCase && byte >= 97 && byte <= 122 ? byte - 32 : byte;
    if (letter !== text.charCodeAt(i)) return false;
  }
  return true;
}

function noSense(): WavError {
  return new WavError('unsupported', 'its header makes no sense; export it again.');
}
