import { describe, expect, it } from 'vitest';
import { openTrack } from '../../../src/files/openTrack';
import { bytesSlices, type Slices } from '../../../src/files/slices';
import { WavError } from '../../../src/files/wavChunks';
import { chunk, format, join, riff, u32 } from '../wavBytes';
import { numbers, samplesOf, tried, watched, writtenFile } from './trackBytes';

const stereo24 = format({ coding: 1, channels: 2, sampleRate: 48000, bits: 24 });
const LAST = 2 ** 23 - 1;

/** 24-bit frames of two channels: A counts up, B down. */
function counted(frames: number): Uint8Array {
  const bytes = new Uint8Array(frames * 6);
  for (let i = 0; i < frames; i++) {
    for (const [k, value] of [i, LAST - i].entries()) {
      for (let byte = 0; byte < 3; byte++) bytes[i * 6 + k * 3 + byte] = (value >> (8 * byte)) & 255;
    }
  }
  return bytes;
}

function bext(timeReference: number, bytes = 602): Uint8Array {
  const content = new Uint8Array(602);
  content.set(u32(timeReference % 2 ** 32, Math.floor(timeReference / 2 ** 32)), 338);
  return chunk('bext', content.subarray(0, bytes));
}

const ds64 = (riffBytes: number, dataBytes: number): Uint8Array => {
  const halves = (n: number): [number, number] => [n % 2 ** 32, Math.floor(n / 2 ** 32)];
  return chunk('ds64', u32(...halves(riffBytes), ...halves(dataBytes), 0, 0, 0));
};

/** The same RIFF under another name. */
const named = (name: string, bytes: Uint8Array): Uint8Array => {
  bytes.set(new TextEncoder().encode(name));
  return bytes;
};

async function opened(bytes: Uint8Array) {
  const track = await openTrack(bytesSlices(bytes));
  const [a] = await samplesOf(track);
  for (let i = 0; i < track.frames; i++) expect(a?.[i]).toBe(i / 2 ** 23);
  return track;
}

describe('a WAV’s header', () => {
  it('has its time reference before or behind the samples, beyond 32 bits too', async () => {
    const data = chunk('data', counted(5));
    expect((await opened(riff([bext(7), stereo24, data]))).startFrame).toBe(7);
    expect((await opened(riff([stereo24, data, bext(2 ** 33 + 5)]))).startFrame).toBe(2 ** 33 + 5);
    expect((await opened(riff([stereo24, chunk('data', counted(1)), bext(0)]))).startFrame).toBe(0);
    expect((await opened(riff([stereo24, data]))).startFrame).toBe(null);
    // a chunk that ends before it, and a number that is none
    expect((await opened(riff([bext(7, 340), stereo24, data]))).startFrame).toBe(null);
    expect((await opened(riff([bext(2 ** 60), stereo24, data]))).startFrame).toBe(null);
  });

  it('has chunks of any kind and of odd sizes, padded or not', async () => {
    const junk = chunk('JUNK', new Uint8Array(28));
    const list = chunk('LIST', new TextEncoder().encode('INFOISFT\x05\0\0\0seven'));
    expect((await opened(riff([junk, list, stereo24, junk, chunk('data', counted(9)), list]))).frames).toBe(9);
    const unpadded = chunk('LIST', new Uint8Array(7)).subarray(0, 15);
    expect((await opened(riff([unpadded, stereo24, unpadded, chunk('data', counted(9))]))).frames).toBe(9);
  });

  for (const name of ['RF64', 'BW64']) {
    it(`${name}: its sizes stand in ds64`, async () => {
      const data = counted(50);
      const file = (told: number, ...more: Uint8Array[]): Uint8Array =>
        named(name, riff([ds64(400, told), stereo24, chunk('data', data, 0xffffffff), ...more], 0xffffffff));
      const whole = await opened(file(data.length, bext(11)));
      expect([whole.frames, whole.cut, whole.startFrame]).toEqual([50, null, 11]);
      expect((await opened(file(6e9))).cut).toBe('cut-short');
      // the recorder stopped before it knew: to the end, whatever stands there
      expect((await opened(named(name, riff([ds64(0, 0), stereo24, chunk('data', data, 0xffffffff)])))).cut).toBe(
        'unfinished',
      );
    });
  }

  it('was never finished: read to the end, and said', async () => {
    const data = counted(50);
    const none = chunk('data', new Uint8Array(0));
    for (const size of [0, 4 + stereo24.length + none.length]) {
      const track = await opened(join([riff([stereo24, none], size), data]));
      expect([track.frames, track.cut]).toEqual([50, 'unfinished']);
    }
    expect((await opened(riff([stereo24, chunk('data', data, 0xffffffff)], 0xffffffff))).cut).toBe(null);
    expect((await opened(riff([stereo24, chunk('data', data, 0x7fffff00)]))).cut).toBe('cut-short');
    // no sound, and another chunk that its RIFF doesn't count
    const error = await tried(join([riff([stereo24, none]), chunk('LIST', new Uint8Array(4))]));
    expect((error as WavError).code).toBe('empty');
  });

  it('contradicts itself: nobody can tell which figure is right', async () => {
    const wrong: [at: number, value: number][] = [
      [4, 44], // rate
      [2, 1], // channels
      [12, 8], // bytes a frame
      [14, 16], // bits
      [8, 9], // bytes a second
    ];
    for (const [at, value] of wrong) {
      const bytes = riff([stereo24, chunk('data', counted(48))]);
      bytes[20 + at] = value;
      const error = await tried(bytes);
      expect(error).toBeInstanceOf(WavError);
      expect((error as WavError).message).toMatch(/contradicts itself|can’t be read/);
    }
    const untold = riff([stereo24, chunk('data', counted(48))]);
    untold.fill(0, 28, 32);
    expect((await opened(untold)).sampleRate).toBe(48000);
  });

  it('tells which bits count', async () => {
    const { bytes } = writtenFile('FFmpeg, 24 bit with a time reference');
    // EXTENSIBLE, its valid bits at 38
    bytes[38] = 20;
    expect(await tried(bytes)).toMatchObject({ track: { bits: 20 } });
    bytes[38] = 0;
    expect(await tried(bytes)).toMatchObject({ track: { bits: 24 } });
  });
});

describe('damage', () => {
  const { bytes, samples, startFrame } = writtenFile('FFmpeg, 24 bit with a time reference');
  const dataAt = Buffer.from(bytes).indexOf('data') + 8;

  it('a file that is cut anywhere is read as far as it goes, or refused', async () => {
    for (let length = 0; length < bytes.length; length++) {
      const result = await tried(bytes.slice(0, length));
      const frames = Math.floor((length - dataAt) / 6);
      if (frames < 1) {
        expect(result).toBeInstanceOf(WavError);
        continue;
      }
      if (result instanceof WavError) throw result;
      const { track } = result;
      expect([track.sampleRate, track.channels, track.frames, track.startFrame]).toEqual([
        48000,
        2,
        frames,
        startFrame,
      ]);
      expect(track.cut).toBe('cut-short');
      expect(result.samples).toEqual(samples.map((all) => all.slice(0, frames)));
    }
  });

  it('200 headers with wrong bytes give a sentence or a right reading, never a wrong rate', async () => {
    const some = numbers(20240611);
    let read = 0;
    for (let k = 0; k < 200; k++) {
      const damaged = bytes.slice();
      for (let n = 1 + some(3); n > 0; n--)
        damaged[some(3) ? some(80) : some(dataAt)] = some(4) ? some(256) : 255 * some(2);
      const result = await tried(damaged);
      if (result instanceof WavError) continue;
      read++;
      expect([result.track.sampleRate, result.track.channels]).toEqual([48000, 2]);
      const { frames } = result.track;
      if (frames <= 160) expect(result.samples).toEqual(samples.map((all) => all.slice(0, frames)));
    }
    expect(read).toBeGreaterThan(40);
    expect(read).toBeLessThan(200);
  });

  it('chunks without end are given up', async () => {
    const empty = new Uint8Array(16_000_000);
    empty.set(riff([]));
    const slices = watched(bytesSlices(empty));
    await expect(openTrack(slices)).rejects.toThrow(WavError);
    expect(slices.reads.length).toBeLessThan(100);
  });
});

describe('what is read of a file', () => {
  it('is its header and the part that is wanted', async () => {
    const slices = watched(bytesSlices(riff([stereo24, chunk('data', counted(1_000_000)), bext(3)])));
    const track = await openTrack(slices);
    expect(track.startFrame).toBe(3);
    expect(slices.reads.reduce((sum, [, bytes]) => sum + bytes, 0)).toBeLessThan(30_000);
    slices.reads.length = 0;
    await samplesOf(track, 400_000, 1000);
    expect(slices.reads).toEqual([[44 + 400_000 * 6, 6000]]);
    slices.reads.length = 0;
    await samplesOf(track);
    expect(Math.max(...slices.reads.map(([, bytes]) => bytes))).toBeLessThanOrEqual(2 ** 20);
  });

  it('is 4 GiB and more where the file has it, of a plain RIFF whose size ran over too', async () => {
    const frames = 1.2e9;
    const dataBytes = frames * 6;
    const tail = counted(10);
    for (const [name, size] of [
      ['RF64', 0xffffffff],
      ['RIFF', dataBytes % 2 ** 32],
    ] as const) {
      const sizes = name === 'RF64' ? ds64(dataBytes + 80, dataBytes) : chunk('JUNK', new Uint8Array(28));
      const head = named(name, riff([sizes, stereo24, chunk('data', new Uint8Array(0), size)], size));
      const end = join([tail, bext(2 ** 32)]);
      const slices = hollow(head, end, head.length + dataBytes - tail.length + end.length);
      const track = await openTrack(slices);
      expect([track.frames, track.cut, track.startFrame]).toEqual([frames, null, 2 ** 32]);
      const [a, b] = await samplesOf(track, frames - 11, 20);
      expect([...(a?.subarray(0, 11) ?? [])].map((x) => x * 2 ** 23)).toEqual([0, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
      expect(b?.[1]).toBe(LAST / 2 ** 23);
    }
  });

  it('is missing when the file got shorter meanwhile: said', async () => {
    const bytes = riff([stereo24, chunk('data', counted(1000))]);
    const slices: Slices = {
      size: bytes.length,
      read: async (from, count) => bytes.subarray(from, Math.min(3000, from + count)),
    };
    const track = await openTrack(slices);
    await expect(track.read(0, [new Float32Array(1000)])).rejects.toThrow(/shorter while it was read/);
  });
});

/** A file of `size` bytes, all 0 but for its head and its end. */
function hollow(head: Uint8Array, end: Uint8Array, size: number): Slices {
  return {
    size,
    async read(from, bytes) {
      const out = new Uint8Array(Math.max(0, Math.min(bytes, size - from)));
      for (const [at, part] of [
        [0, head],
        [size - end.length, end],
      ] as const) {
        for (let i = Math.max(0, at - from); i < Math.min(out.length, at + part.length - from); i++) {
          out[i] = part[i + from - at] as number;
        }
      }
      return out;
    },
  };
}
