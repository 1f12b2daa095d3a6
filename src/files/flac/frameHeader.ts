/** The header of a FLAC frame (RFC 9639, 9.1). */
import { crc8 } from './crc';
import type { StreamInfo } from './streamInfo';

export interface FrameHeader {
  /** sample frames before it in the stream */
  fromFrame: number;
  /** sample frames in it */
  frames: number;
}

/** 4 bytes, a number of up to 7, block size and rate of up to 2 each, a checksum */
export const MOST_HEADER_BYTES = 16;

/** by code, where the stream's own doesn't hold (0) and it doesn't follow the header (12–14) */
const RATES = [0, 88200, 176400, 192000, 8000, 16000, 22050, 24000, 32000, 44100, 48000, 96000];
const BITS = [0, 8, 12, -1, 16, 20, 24, 32];

/**
 * @param at where it may begin
 * @returns null: no frame of this stream begins there
 */
export function frameHeaderAt(bytes: Uint8Array, at: number, info: StreamInfo): FrameHeader | null {
  if (at + 6 > bytes.length || bytes[at] !== 0xff || (bytes[at + 1] & 0xfe) !== 0xf8) return null;
  const sized = bytes[at + 1] === 0xf9;
  const sizeCode = bytes[at + 2] >> 4;
  const rateCode = bytes[at + 2] & 15;
  const channelCode = bytes[at + 3] >> 4;
  const bits = BITS[(bytes[at + 3] >> 1) & 7];
  if (sizeCode === 0 || rateCode === 15 || channelCode > 10 || bytes[at + 3] & 1) return null;
  if ((channelCode < 8 ? channelCode + 1 : 2) !== info.channels) return null;
  if (bits !== 0 && bits !== info.bits) return null;

  // a number as UTF-8 has it, of up to seven bytes
  let next = at + 4;
  const first = bytes[next++];
  const ones = Math.clz32(~(first << 24));
  if (ones === 1 || ones > 7) return null;
  let number = ones === 0 ? first : first & (0x7f >> ones);
  for (let i = 1; i < ones; i++) {
    const more = bytes[next++];
    if ((more & 0xc0) !== 0x80) return null;
    number = number * 64 + (more & 0x3f);
  }

  const u16 = (): number => ((bytes[next++] ?? 0) << 8) | (bytes[next++] ?? 0);
  let frames: number;
  if (sizeCode === 1) frames = 192;
  else if (sizeCode <= 5) frames = 144 << sizeCode;
  else if (sizeCode === 6) frames = (bytes[next++] ?? 0) + 1;
  else if (sizeCode === 7) frames = u16() + 1;
  else frames = 1 << sizeCode;

  let rate = info.sampleRate;
  if (rateCode === 12) rate = (bytes[next++] ?? 0) * 1000;
  else if (rateCode === 13) rate = u16();
  else if (rateCode === 14) rate = u16() * 10;
  else if (rateCode > 0) rate = RATES[rateCode];
  if (rate !== info.sampleRate || frames > info.mostFrames) return null;
  if (next >= bytes.length || crc8(bytes, at, next) !== bytes[next]) return null;
  return { fromFrame: sized ? number : number * info.mostFrames, frames };
}
