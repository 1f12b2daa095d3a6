/** WAV files byte by byte, right or wrong in any field. */
import { join } from '../../../files/wavBytes';

export interface RawWav {
  tag?: number;
  channels?: number;
  rate?: number;
  bits?: number;
  /** bytes of a frame; what fits the others unless told */
  block?: number;
  /** of the format chunk, beyond its 16 */
  more?: Uint8Array;
  data?: Uint8Array;
  /** what the header says of the data's length, bytes */
  saysBytes?: number;
  head?: string;
  form?: string;
  formatBytes?: number;
  /** chunks before the data, e.g. one that claims more than there is */
  before?: Uint8Array;
}

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const u16 = (value: number): Uint8Array => Uint8Array.of(value & 255, (value >> 8) & 255);
const u32 = (value: number): Uint8Array => {
  const bytes = new Uint8Array(4);
  new DataView(bytes.buffer).setUint32(0, value, true);
  return bytes;
};

export const joined = (...parts: Uint8Array[]): Uint8Array => join(parts);

export const chunk = (name: string, content: Uint8Array, saysBytes = content.length): Uint8Array =>
  joined(ascii(name), u32(saysBytes), content, new Uint8Array(content.length & 1));

/** The format chunk alone. */
export function format(wav: RawWav): Uint8Array {
  const { tag = 1, channels = 2, rate = 44_100, bits = 16, more = new Uint8Array(0) } = wav;
  const block = wav.block ?? Math.ceil(bits / 8) * channels;
  const all = joined(u16(tag), u16(channels), u32(rate), u32(rate * block), u16(block), u16(bits), more);
  return all.subarray(0, wav.formatBytes ?? all.length);
}

export function rawWav(wav: RawWav): Uint8Array {
  const data = wav.data ?? new Uint8Array(4 * 4410);
  const body = joined(
    ascii(wav.form ?? 'WAVE'),
    chunk('fmt ', format(wav)),
    wav.before ?? new Uint8Array(0),
    chunk('data', data, wav.saysBytes ?? data.length),
  );
  return joined(ascii(wav.head ?? 'RIFF'), u32(body.length), body);
}

/** A wave file of 32-bit float, whatever the values are. @param channels one array each, equally long */
export function floatWav(channels: readonly Float32Array[], rate = 44_100): Uint8Array {
  const frames = channels[0]?.length ?? 0;
  const all = new Float32Array(frames * channels.length);
  channels.forEach((channel, c) => {
    for (let i = 0; i < frames; i++) all[i * channels.length + c] = channel[i] as number;
  });
  return rawWav({ tag: 3, bits: 32, channels: channels.length, rate, data: new Uint8Array(all.buffer) });
}

export const bytesOf = ascii;
