/** Files for the tests of tracks: those of other writers, and the samples that are in them. */
import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { openTrack } from '../../../src/files/openTrack';
import { bytesSlices, type Slices } from '../../../src/files/slices';
import type { Track } from '../../../src/files/track';
import { WavError } from '../../../src/files/wavChunks';

export interface WrittenFile {
  name: string;
  kind: 'wav' | 'flac';
  coding: 'pcm' | 'float';
  sampleRate: number;
  channels: number;
  bits: number;
  frames: number;
  startFrame: number | null;
  bytes: Uint8Array;
  /** [channel][frame], full scale ±1 */
  samples: Float32Array[];
}

type Stored = Omit<WrittenFile, 'bytes' | 'samples'> & { base64: string; seed: number; sourceBits: number };

/** The walk of tests/reference/trackFiles.py, whole numbers of `bits` bits. */
function walk(seed: number, bits: number, count: number): number[] {
  const top = 2 ** (bits - 1);
  const out = [-top, top - 1];
  let state = seed;
  let level = 0;
  for (let i = 0; i < count - 2; i++) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    level += Math.floor(Math.floor(state / 2 ** (32 - bits)) / 16) - Math.floor(top / 16);
    out.push(((((level + top) % (2 * top)) + 2 * top) % (2 * top)) - top);
  }
  return out.slice(0, count);
}

export function writtenFiles(): WrittenFile[] {
  const text = readFileSync(new URL('../../reference/trackFiles.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as Stored[]).map(({ base64, seed, sourceBits, ...file }) => {
    const all = walk(seed, sourceBits, file.frames * file.channels);
    const samples = Array.from({ length: file.channels }, (_, c) =>
      Float32Array.from(
        { length: file.frames },
        (_, i) => (all[i * file.channels + c] as number) / 2 ** (sourceBits - 1),
      ),
    );
    return { ...file, bytes: new Uint8Array(Buffer.from(base64, 'base64')), samples };
  });
}

export function writtenFile(name: string): WrittenFile {
  const file = writtenFiles().find((one) => one.name === name);
  if (!file) throw new Error(`no such file: ${name}`);
  return file;
}

export async function samplesOf(track: Track, fromFrame = 0, frames = track.frames): Promise<Float32Array[]> {
  const into = Array.from({ length: track.channels }, () => new Float32Array(frames));
  expect(await track.read(fromFrame, into)).toBe(Math.max(0, Math.min(frames, track.frames - fromFrame)));
  return into;
}

/** All of it, or the one sentence why not; nothing else may happen. */
export async function tried(bytes: Uint8Array): Promise<{ track: Track; samples: Float32Array[] } | WavError> {
  let track: Track | null = null;
  try {
    track = await openTrack(bytesSlices(bytes));
    return { track, samples: await samplesOf(track) };
  } catch (thrown) {
    expect(thrown).toBeInstanceOf(WavError);
    expect((thrown as WavError).message).toMatch(/^[^.]+\.$|^[^.]+\d\.\d[^.]*\.$/); // one sentence
    return thrown as WavError;
  } finally {
    track?.close();
  }
}

/** Notes what is read of it. */
export function watched(slices: Slices): Slices & { reads: [from: number, bytes: number][] } {
  const reads: [number, number][] = [];
  return {
    size: slices.size,
    reads,
    read(from, bytes) {
      reads.push([from, bytes]);
      return slices.read(from, bytes);
    },
  };
}

/** Seeded (xorshift32): whole numbers from 0 to below `below`. */
export function numbers(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) % below;
  };
}
