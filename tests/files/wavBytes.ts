/** WAV files put together by hand, for files that no writer would write. */

export function u32(...values: number[]): Uint8Array {
  const view = new DataView(new ArrayBuffer(values.length * 4));
  for (const [i, value] of values.entries()) view.setUint32(i * 4, value, true);
  return new Uint8Array(view.buffer);
}

function u16(...values: number[]): Uint8Array {
  const view = new DataView(new ArrayBuffer(values.length * 2));
  for (const [i, value] of values.entries()) view.setUint16(i * 2, value, true);
  return new Uint8Array(view.buffer);
}

export function join(parts: Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (c) => c.charCodeAt(0));

/** @param size as the header states it, when it is to lie */
export function chunk(id: string, content: Uint8Array | Int16Array, size?: number): Uint8Array {
  const bytes = new Uint8Array(content.buffer, content.byteOffset, content.byteLength);
  return join([ascii(id), u32(size ?? bytes.length), bytes, new Uint8Array(bytes.length % 2)]);
}

export interface FormatFields {
  coding: number;
  channels: number;
  sampleRate: number;
  bits: number;
}

export function format({ coding, channels, sampleRate, bits }: FormatFields): Uint8Array {
  const block = channels * Math.ceil(bits / 8);
  return chunk('fmt ', join([u16(coding, channels), u32(sampleRate, sampleRate * block), u16(block, bits)]));
}

/** 16-bit stereo at 48 kHz. @param known false: a sub-format outside the registered family */
export function extensibleFormat(coding: number, known: boolean): Uint8Array {
  const tail = known ? [0, 0, 16, 0, 128, 0, 0, 170, 0, 56, 155, 113] : new Array(12).fill(7);
  const head = join([u16(0xfffe, 2), u32(48000, 192000), u16(4, 16), u16(22, 16), u32(3, coding)]);
  return chunk('fmt ', join([head, Uint8Array.from(tail)]));
}

export function riff(chunks: Uint8Array[], size?: number): Uint8Array {
  const body = join([ascii('WAVE'), ...chunks]);
  return join([ascii('RIFF'), u32(size ?? body.length), body]);
}

/** 32-bit float, whatever the samples are: the project's own writer refuses what is no number. */
export function floatWav(channels: Float32Array[], sampleRate: number): Uint8Array {
  const frames = channels[0]?.length ?? 0;
  const samples = Float32Array.from(
    { length: channels.length * frames },
    (_, k) => channels[k % channels.length]?.[Math.floor(k / channels.length)] ?? 0,
  );
  const head = format({ coding: 3, channels: channels.length, sampleRate, bits: 32 });
  return riff([head, chunk('data', new Uint8Array(samples.buffer))]);
}
