/** Takes as long as a song and longer, on disk: written a piece at a time, once, and kept for the next run. */
import { existsSync, mkdirSync, readdirSync, renameSync } from 'node:fs';
import { type FileHandle, open } from 'node:fs/promises';
import { join } from 'node:path';
import { renderTake } from '../../support/take/renderTake';
import { drawTake } from '../../support/take/simulatedKit';
import { truthOfTake } from '../../support/take/simulatedTruth';

const SEED = 10_000;
const NOISE_SECONDS = 13;
const NOISE = 10 ** (-80 / 20);
const PIECE = 1 << 16;
const BYTES = 3;
/** beside the kit's fourteen: rooms from farther back */
const MORE = [
  { file: '15 Room Back.wav', of: '12 Room Left.wav', delay: 250, gain: 0.5 },
  { file: '16 Room Far.wav', of: '13 Room Right.wav', delay: 410, gain: -0.4 },
];

export interface LongTrack {
  file: string;
  sound: Float32Array;
}

/** The simulated kit with a groove, and two rooms more that are heard later: sixteen tracks. */
export function kitTracks(): { tracks: LongTrack[]; sampleRate: number } {
  const made = drawTake(SEED, { groove: true });
  const { files } = truthOfTake(made);
  const sounds = renderTake(made);
  const tracks = files.map((file, t): LongTrack => ({ file, sound: sounds[t] as Float32Array }));
  for (const { file, of, delay, gain } of MORE) {
    const { sound } = tracks.find((one) => one.file === of) ?? (tracks.at(-1) as LongTrack);
    const later = new Float32Array(sound.length);
    for (let i = delay; i < later.length; i++) later[i] = gain * (sound[i - delay] as number);
    tracks.push({ file, sound: later });
  }
  return { tracks, sampleRate: made.sampleRate };
}

/** Seeded (xorshift32), even between ±1. */
function noise(seed: number, length: number): Float32Array {
  let state = seed;
  return Float32Array.from({ length }, () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state / 2 ** 31;
  });
}

/** @returns paths of 24-bit WAV files, one a track: the take over and over, with noise that doesn't come back with it */
export async function longTake(folder: string, minutes: number): Promise<string[]> {
  const done = join(folder, `take-${minutes}-min`);
  if (!existsSync(done)) {
    const made = `${done}.part`;
    mkdirSync(made, { recursive: true });
    const { tracks, sampleRate } = kitTracks();
    const frames = minutes * 60 * sampleRate;
    for (const [t, track] of tracks.entries()) await writeTrack(join(made, track.file), track, t, frames, sampleRate);
    renameSync(made, done);
  }
  return readdirSync(done)
    .sort()
    .map((name) => join(done, name));
}

async function writeTrack(path: string, { sound }: LongTrack, t: number, frames: number, rate: number): Promise<void> {
  const hiss = noise(4711 + t, NOISE_SECONDS * rate);
  const file = await open(path, 'w');
  try {
    await file.write(wavHead(1, rate, frames * BYTES));
    const bytes = Buffer.alloc(PIECE * BYTES);
    for (let from = 0; from < frames; from += PIECE) {
      const n = Math.min(PIECE, frames - from);
      for (let i = 0; i < n; i++) {
        const at = from + i;
        const x = (sound[at % sound.length] as number) + NOISE * (hiss[at % hiss.length] as number);
        bytes.writeIntLE(Math.max(-8388608, Math.min(8388607, Math.round(x * 8388608))), i * BYTES, BYTES);
      }
      await file.write(bytes, 0, n * BYTES);
    }
  } finally {
    await file.close();
  }
}

/** 24 bits, plain; the sizes in `ds64` where they need more than 32 bits (EBU Tech 3306). */
export function wavHead(channels: number, rate: number, dataBytes: number): Buffer {
  const long = dataBytes > 2 ** 32 - 100;
  const head = Buffer.alloc(44 + (long ? 36 : 0));
  head.write(long ? 'RF64' : 'RIFF', 0, 'latin1');
  head.writeUInt32LE(long ? 0xffffffff : head.length - 8 + dataBytes, 4);
  head.write('WAVE', 8, 'latin1');
  let at = 12;
  if (long) {
    head.write('ds64', at, 'latin1');
    head.writeUInt32LE(28, at + 4);
    head.writeBigUInt64LE(BigInt(head.length - 8 + dataBytes), at + 8);
    head.writeBigUInt64LE(BigInt(dataBytes), at + 16);
    at += 36;
  }
  const frameBytes = channels * BYTES;
  head.write('fmt ', at, 'latin1');
  head.writeUInt32LE(16, at + 4);
  head.writeUInt16LE(1, at + 8);
  head.writeUInt16LE(channels, at + 10);
  head.writeUInt32LE(rate, at + 12);
  head.writeUInt32LE(rate * frameBytes, at + 16);
  head.writeUInt16LE(frameBytes, at + 20);
  head.writeUInt16LE(8 * BYTES, at + 22);
  head.write('data', at + 24, 'latin1');
  head.writeUInt32LE(long ? 0xffffffff : dataBytes, at + 28);
  return head;
}

/**
 * One file of many channels and more than 4 GiB, silent but for its end: holes on disk.
 * @param tail its last samples, a track a channel @returns null: this disk makes no holes
 */
export async function sparseTake(
  path: string,
  gib: number,
  tail: readonly Float32Array[],
  rate: number,
): Promise<{ path: string; seconds: number } | null> {
  const frameBytes = tail.length * BYTES;
  const frames = Math.floor((gib * 2 ** 30) / frameBytes);
  const head = wavHead(tail.length, rate, frames * frameBytes);
  const length = (tail[0] as Float32Array).length;
  let file: FileHandle | null = null;
  try {
    file = await open(path, 'w');
    await file.write(head, 0, head.length, 0);
    await file.truncate(head.length + frames * frameBytes);
    const bytes = Buffer.alloc(PIECE * frameBytes);
    for (let from = 0; from < length; from += PIECE) {
      const n = Math.min(PIECE, length - from);
      for (let i = 0; i < n; i++)
        tail.forEach((x, c) => {
          const value = Math.max(-8388608, Math.min(8388607, Math.round((x[from + i] as number) * 8388608)));
          bytes.writeIntLE(value, i * frameBytes + c * BYTES, BYTES);
        });
      await file.write(bytes, 0, n * frameBytes, head.length + (frames - length + from) * frameBytes);
    }
    const { blocks } = await file.stat();
    return blocks * 512 < length * frameBytes + 2 ** 22 ? { path, seconds: frames / rate } : null;
  } catch (thrown) {
    if (thrown instanceof Error && 'code' in thrown && /ENOSPC|EFBIG|EINVAL|EDQUOT/.test(String(thrown.code)))
      return null;
    throw thrown;
  } finally {
    await file?.close();
  }
}
