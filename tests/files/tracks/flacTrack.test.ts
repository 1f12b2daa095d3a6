import { describe, expect, it } from 'vitest';
import { crc8, crc16 } from '../../../src/files/flac/crc';
import { frameHeaderAt } from '../../../src/files/flac/frameHeader';
import { streamInfo } from '../../../src/files/flac/streamInfo';
import { openTrack } from '../../../src/files/openTrack';
import { answered, bytesSlices } from '../../../src/files/slices';
import { WavError } from '../../../src/files/wavChunks';
import { join } from '../wavBytes';
import { numbers, samplesOf, tried, watched, writtenFile } from './trackBytes';

const many = writtenFile('flac, many frames');
const info = answered(streamInfo(0), new DataView(many.bytes.buffer, many.bytes.byteOffset, many.bytes.length));

/** where each frame begins, and the end */
const starts = (() => {
  const out: number[] = [];
  for (let at = info.soundAt, next = 0; at < many.bytes.length; at++) {
    const header = frameHeaderAt(many.bytes, at, info);
    if (header?.fromFrame !== next) continue;
    out.push(at);
    next += header.frames;
  }
  return [...out, many.bytes.length];
})();

/** A whole frame with its checksums set right again. */
function resealed(frame: Uint8Array, headerBytes: number): Uint8Array {
  frame[headerBytes] = crc8(frame, 0, headerBytes);
  const crc = crc16(frame, 0, frame.length - 2);
  frame.set([crc >> 8, crc & 255], frame.length - 2);
  return frame;
}

describe('checksums', () => {
  // RFC 9639, appendix D.1: the header and the frame of its first example
  it('are those of the format’s own example', () => {
    const frame = Uint8Array.of(
      0xff,
      0xf8,
      0x69,
      0x18,
      0x00,
      0x00,
      0xbf,
      0x03,
      0x58,
      0xfd,
      0x03,
      0x12,
      0x8b,
      0xaa,
      0x9a,
    );
    expect(crc8(frame, 0, 6)).toBe(0xbf);
    expect(crc16(frame, 0, 13)).toBe(0xaa9a);
    expect(crc16(frame, 0, 15)).toBe(0);
  });
});

describe('a FLAC file', () => {
  it('has frames to find', () => expect(starts.length).toBe(Math.ceil(2000 / 192) + 1));

  it('of blocks of several sizes, which count samples instead of blocks', async () => {
    const frames = starts.slice(0, -1).map((at, k) => {
      const frame = many.bytes.slice(at, starts[k + 1]);
      // the number, of one byte so far, becomes the sample’s, of two (UTF-8) where it takes them
      const sample = k * 192;
      const number = sample < 128 ? [sample] : [0xc0 | (sample >> 6), 0x80 | (sample & 63)];
      const head = Uint8Array.of(0xff, 0xf9, frame[2] as number, frame[3] as number, ...number);
      const extra = (frame[2] as number) >> 4 === 6 ? 1 : 0;
      const bytes = join([head, frame.subarray(5)]);
      return sample < 2048 ? resealed(bytes, head.length + extra) : bytes;
    });
    const result = await tried(join([many.bytes.subarray(0, info.soundAt), ...frames]));
    if (result instanceof WavError) throw result;
    expect(result.samples).toEqual(many.samples);
  });

  it('with tags before and behind it', async () => {
    const before = Uint8Array.of(0x49, 0x44, 0x33, 4, 0, 0, 0, 0, 1, 2, ...new Uint8Array(130));
    const behind = new Uint8Array(128);
    behind.set(new TextEncoder().encode('TAG'));
    const result = await tried(join([before, many.bytes, behind]));
    if (result instanceof WavError) throw result;
    expect(result.track.cut).toBe(null);
    expect(result.samples).toEqual(many.samples);
  });

  it('is read where it is wanted, and no more', async () => {
    // so long that it isn't held at once: a second of noise, over and over, with its numbers going on
    const slices = watched(bytesSlices(repeated(60)));
    const track = await openTrack(slices);
    expect(track.frames).toBe(60 * 1920);
    expect(slices.reads.reduce((sum, [, bytes]) => sum + bytes, 0)).toBeLessThan(slices.size + 600_000);
    for (const from of [100_000, 3, 60_001, 115_000]) {
      const [part] = await samplesOf(track, from, 200);
      for (let i = 0; i < 200; i++) expect(part?.[i]).toBe(many.samples[0]?.[(from + i) % 1920]);
    }
    expect(Math.max(...slices.reads.map(([, bytes]) => bytes))).toBeLessThanOrEqual(2 ** 18);
    track.close();
  });
});

/** The first ten frames `times` over, numbered through. */
function repeated(times: number): Uint8Array {
  const parts: Uint8Array[] = [many.bytes.slice(0, info.soundAt)];
  // 36 bits of length in all, of which the lower 32 are enough
  const length = new DataView(parts[0]?.buffer as ArrayBuffer);
  length.setUint32(8 + 14, times * 1920);
  for (let k = 0; k < times * 10; k++) {
    const frame = many.bytes.slice(starts[k % 10], starts[(k % 10) + 1]);
    const number = k < 128 ? [k] : [0xc0 | (k >> 6), 0x80 | (k & 63)];
    const head = Uint8Array.of(0xff, 0xf8, frame[2] as number, frame[3] as number, ...number);
    parts.push(resealed(join([head, frame.subarray(5)]), head.length));
  }
  return join(parts);
}

describe('damage', () => {
  it('a file that is cut anywhere is read as far as whole frames go, or refused', async () => {
    const near = starts.flatMap((at) => [-2, -1, 0, 1, 3, 7].map((more) => at + more));
    const lengths = [...Array(info.soundAt + 20).keys(), ...near].filter((length) => length < many.bytes.length);
    for (const length of lengths) {
      const whole = starts.filter((at) => at <= length).length - 1;
      const result = await tried(many.bytes.slice(0, length));
      if (whole < 1) {
        expect(result).toBeInstanceOf(WavError);
        continue;
      }
      if (result instanceof WavError) throw result;
      expect([result.track.sampleRate, result.track.frames, result.track.cut]).toEqual([
        48000,
        whole * 192,
        'cut-short',
      ]);
      expect(result.samples[0]).toEqual(many.samples[0]?.slice(0, whole * 192));
    }
  });

  it('a piped one that is cut says so too', async () => {
    const { bytes } = writtenFile('flac, piped');
    const result = await tried(bytes.slice(0, bytes.length - 5));
    expect(result).toMatchObject({ track: { frames: 576, cut: 'cut-short' } });
  });

  it('something else behind it, a lot of it, is left alone', async () => {
    const result = await tried(join([many.bytes, new Uint8Array(300_000)]));
    if (result instanceof WavError) throw result;
    // the last frame can't be told from what follows it
    expect([result.track.frames, result.track.cut]).toEqual([1920, 'cut-short']);
  });

  it('a bad frame in the middle is told with its place, and the rest can be read', async () => {
    const bytes = many.bytes.slice();
    const at = (starts[5] as number) + 30;
    bytes[at] = (bytes[at] as number) ^ 4;
    const track = await openTrack(bytesSlices(bytes));
    expect(track.frames).toBe(2000);
    expect((await samplesOf(track, 0, 960))[0]).toEqual(many.samples[0]?.slice(0, 960));
    await expect(track.read(900, [new Float32Array(200)])).rejects.toThrow('it is damaged at 0.02 s');
    expect((await samplesOf(track, 1500, 500))[0]).toEqual(many.samples[0]?.slice(1500));
    track.close();
  });

  it('200 files with wrong bytes give a sentence or a right reading, never a wrong rate', async () => {
    const some = numbers(4711);
    let read = 0;
    for (let k = 0; k < 200; k++) {
      const damaged = many.bytes.slice();
      const within = some(3) ? 4 + 4 + 34 : info.soundAt + 20;
      for (let n = 1 + some(2); n > 0; n--) damaged[some(within)] = some(4) ? some(256) : 255 * some(2);
      const result = await tried(damaged);
      if (result instanceof WavError) continue;
      read++;
      expect([result.track.sampleRate, result.track.channels]).toEqual([48000, 1]);
      const { frames } = result.track;
      expect(result.samples).toEqual(many.samples.map((all) => all.slice(0, frames)));
    }
    expect(read).toBeGreaterThan(20);
    expect(read).toBeLessThan(200);
  });

  it('bits that can’t be decoded are refused', async () => {
    const bytes = many.bytes.slice();
    const view = new DataView(bytes.buffer);
    view.setUint32(18, (view.getUint32(18) & ~(31 << 4)) | (19 << 4));
    const error = await tried(bytes);
    expect((error as WavError).message).toMatch(/20-bit/);
  });
});
