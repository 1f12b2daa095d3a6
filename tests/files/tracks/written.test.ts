import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openTrack } from '../../../src/files/openTrack';
import { readWav } from '../../../src/files/readWav';
import { blobSlices, bytesSlices } from '../../../src/files/slices';
import { samplesOf, writtenFile, writtenFiles } from './trackBytes';

describe('files of other writers (tests/reference/trackFiles.py)', () => {
  const files = writtenFiles();
  it('has them', () => expect(files.length).toBeGreaterThan(30));

  for (const file of files) {
    it(file.name, async () => {
      const track = await openTrack(bytesSlices(file.bytes));
      const { kind, sampleRate, channels, frames, coding, bits, startFrame, cut } = track;
      expect({ kind, sampleRate, channels, frames, coding, bits, startFrame, cut }).toEqual({
        kind: file.kind,
        sampleRate: file.sampleRate,
        channels: file.channels,
        frames: file.frames,
        coding: file.coding,
        bits: file.bits,
        startFrame: file.startFrame,
        cut: null,
      });
      expect(await samplesOf(track)).toEqual(file.samples);
      track.close();
    });
  }
});

describe('SciPy’s files (tests/reference/wavFiles.py)', () => {
  const stored = readFileSync(new URL('../../reference/wavFiles.json', import.meta.url), 'utf8');
  for (const { name, base64 } of JSON.parse(stored) as { name: string; base64: string }[]) {
    it(`${name}: as when it is read whole`, async () => {
      const bytes = new Uint8Array(Buffer.from(base64, 'base64'));
      const whole = readWav(bytes);
      const track = await openTrack(bytesSlices(bytes));
      expect([track.sampleRate, track.channels, track.frames]).toEqual([
        whole.sampleRate,
        whole.channels,
        whole.frames,
      ]);
      expect(track.cut !== null).toBe(whole.truncated);
      expect(await samplesOf(track)).toEqual(Array.from({ length: whole.channels }, (_, c) => whole.read(c)));
    });
  }
});

describe('parts of a track', () => {
  for (const name of ['SoX, 24 bit', 'flac, many frames of two channels']) {
    it(`${name}: any part, in any order, by several readers at a time`, async () => {
      const { bytes, samples, channels, frames } = writtenFile(name);
      const track = await openTrack(blobSlices(new Blob([new Uint8Array(bytes)])));
      const starts = [0, 1, 40, frames - 3, 7, frames, 100, 39, frames + 5];
      const parts = await Promise.all(starts.map((from) => samplesOf(track, from, 70)));
      for (const [i, from] of starts.entries()) {
        for (let c = 0; c < channels; c++) {
          const there = (samples[c] as Float32Array).subarray(from, from + 70);
          const expected = new Float32Array(70);
          expected.set(there);
          expect(parts[i]?.[c]).toEqual(expected);
        }
      }
      track.close();
    });

    it(`${name}: only the channels that are wanted`, async () => {
      const { bytes, samples } = writtenFile(name);
      const track = await openTrack(bytesSlices(bytes));
      const second = new Float32Array(50);
      expect(await track.read(20, [null, second])).toBe(50);
      expect(second).toEqual(samples[1]?.slice(20, 70));
      expect(await track.read(20, [])).toBe(0);
      await expect(track.read(0, Array(9).fill(second))).rejects.toThrow(RangeError);
      await expect(track.read(0, [second, new Float32Array(49)])).rejects.toThrow(RangeError);
      await expect(track.read(-1, [second])).rejects.toThrow(RangeError);
      await expect(track.read(0.5, [second])).rejects.toThrow(RangeError);
      track.close();
    });
  }
});
