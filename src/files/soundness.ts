/**
 * What of a recording is no sound: a sample that is no number, infinite, or beyond ±MOST_SAMPLE (60 dB over full scale). A frame
 * in which either channel has one is part of a gap. The bounds are the engine's own (a test holds them together).
 */
import { WavError } from './wavChunks';

/** Hz */
export const LOWEST_RATE = 8000;
export const HIGHEST_RATE = 384000;
/** A sample of ±1 is full scale. */
export const MOST_SAMPLE = 1000;

/** 30 dB over full scale: no converter and no mixer goes there, samples that were never scaled down do. */
const LOUD = 32;
/** so long at that level in all is no single burst, s */
const LOUD_SECONDS = 0.01;
/** gaps that lie closer are told as one, s */
const TOGETHER_SECONDS = 0.02;
/** more than this share of no sound leaves nothing to measure */
const MOST_SHARE = 0.9;
/** frames looked at at a time: a slice costs a few ms */
const SLICE = 1 << 19;

export interface Gap {
  fromFrame: number;
  frames: number;
}

/** Fill A and B (of equal length) with frames from `fromFrame` on; returns the frames written, 0 at the end. */
export type Frames = (fromFrame: number, a: Float32Array, b: Float32Array) => number;

/** @returns one sentence that follows the file's name; null: it can be measured */
export function rateProblem(sampleRate: number): WavError | null {
  if (sampleRate >= LOWEST_RATE && sampleRate <= HIGHEST_RATE) return null;
  return new WavError(
    'unsupported',
    `its rate is ${sampleRate} Hz, and ${LOWEST_RATE} to ${HIGHEST_RATE} Hz can be measured; export it at 48000 Hz.`,
  );
}

const isSound = (x: number): boolean => x > -MOST_SAMPLE && x < MOST_SAMPLE;

/** Finds the gaps of a recording whose frames come in order. */
export class GapFinder {
  readonly gaps: Gap[] = [];
  private readonly together: number;
  private readonly loudFrames: number;
  private frames = 0;
  private unsoundA = 0;
  private unsoundB = 0;
  private unsound = 0;
  private beyond = 0;
  private loud = 0;

  constructor(sampleRate: number) {
    this.together = Math.round(TOGETHER_SECONDS * sampleRate);
    this.loudFrames = LOUD_SECONDS * sampleRate;
  }

  note(a: Float32Array, b: Float32Array, n: number): void {
    for (let i = 0; i < n; i++) {
      const x = a[i] as number;
      const y = b[i] as number;
      const most = Math.max(Math.abs(x), Math.abs(y));
      if (most <= LOUD) continue;
      // NaN compares as false, so it is added
      if (most < MOST_SAMPLE) this.loud++;
      else this.add(this.frames + i, x, y);
    }
    this.frames += n;
  }

  /** @throws WavError `unsupported` where nothing of it can be measured, or all of it is at a level that nothing has */
  close(): void {
    if (this.frames === 0 || this.unsound === 0) return;
    if (this.beyond > 0 && this.loud > this.loudFrames)
      throw new WavError(
        'unsupported',
        'its samples are far beyond full scale, so they were never scaled to ±1; export it again as 24-bit WAV.',
      );
    if (this.unsound <= MOST_SHARE * this.frames) return;
    const whole = (count: number): boolean => count > MOST_SHARE * this.frames;
    const [a, b] = [whole(this.unsoundA), whole(this.unsoundB)];
    const where = a === b ? 'it holds' : `its channel ${a ? 'A' : 'B'} holds`;
    throw new WavError(
      'unsupported',
      `${where} values that are no sound (no numbers, or far beyond full scale); export it again as 24-bit WAV.`,
    );
  }

  private add(frame: number, x: number, y: number): void {
    const [a, b] = [!isSound(x), !isSound(y)];
    if (a) this.unsoundA++;
    if (b) this.unsoundB++;
    if ((a && Number.isFinite(x)) || (b && Number.isFinite(y))) this.beyond++;
    this.unsound++;
    const last = this.gaps.at(-1);
    if (last && frame - (last.fromFrame + last.frames) <= this.together) last.frames = frame + 1 - last.fromFrame;
    else this.gaps.push({ fromFrame: frame, frames: 1 });
  }
}

/**
 * All gaps of a recording. @param pause waited for after each slice, so that a screen stays alive
 * @throws WavError as GapFinder.close
 */
export async function gapsOf(frames: Frames, sampleRate: number, pause: () => Promise<void>): Promise<Gap[]> {
  const finder = new GapFinder(sampleRate);
  const [a, b] = [new Float32Array(SLICE), new Float32Array(SLICE)];
  for (let at = 0, got = frames(0, a, b); got > 0; got = frames(at, a, b)) {
    finder.note(a, b, got);
    at += got;
    await pause();
  }
  finder.close();
  return finder.gaps;
}

/** "no sound from 12.34 s on for 20 ms, left out"; empty: there are no gaps */
export function gapsText(gaps: readonly Gap[], sampleRate: number): string {
  const [longest] = [...gaps].sort((p, q) => q.frames - p.frames);
  if (!longest) return '';
  const at = `${(longest.fromFrame / sampleRate).toFixed(2)} s`;
  const ms = (1000 * longest.frames) / sampleRate;
  const long = ms < 1000 ? `${Math.max(1, Math.round(ms))} ms` : `${(ms / 1000).toFixed(1)} s`;
  if (gaps.length === 1) return `no sound in it from ${at} on for ${long}: left out, the rest measured`;
  return `no sound in it at ${gaps.length} places, the longest from ${at} on for ${long}: left out, the rest measured`;
}
