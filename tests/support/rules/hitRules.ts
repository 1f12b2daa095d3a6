/** What a hit is read from, made by hand: block peaks, spectra, waves in a ring. Frames at RATE. */
import { Arrival, ArrivalPicker } from '../../../src/dsp/hit/arrival';
import { BANDS_A_CHANNEL, FINGERPRINT, Fingerprints } from '../../../src/dsp/hit/fingerprint';
import { HitDetector } from '../../../src/dsp/hit/hitDetector';
import { LowPush, LowPushPicker } from '../../../src/dsp/hit/lowPush';
import type { Gcc } from '../../../src/dsp/signal/gcc';
import { Ring } from '../../../src/dsp/signal/ring';
import { RATE } from './rules';

/** 0.75 ms */
export const BLOCK_FRAMES = 36;
/** of pushes round the trigger: 528 frames */
export const REACH_MS = 11;

export interface MadeBlocks {
  blocks: number;
  /** peaks by block number; what isn't named is `floorA`, `floorB`, 0 unless told */
  a?: Record<number, number>;
  b?: Record<number, number>;
  floorA?: number;
  floorB?: number;
}

/** Runs over made-up envelopes, from where the run before ended. */
export class DetectorFeed {
  private readonly detector = new HitDetector(RATE);

  /** @returns numbers of the blocks in which a hit began, and began too soon after the one before */
  run({ blocks, a = {}, b = {}, floorA = 0, floorB = 0 }: MadeBlocks, step = 128): { hits: number[]; soon: number[] } {
    const frames = blocks * BLOCK_FRAMES;
    const wave = (peaks: Record<number, number>, floor: number): Float64Array => {
      const x = new Float64Array(frames);
      // one sample a block, by turns up and down
      for (let k = 0; k < blocks; k++)
        x[k * BLOCK_FRAMES + (k % BLOCK_FRAMES)] = (k % 2 ? -1 : 1) * (peaks[k] ?? floor);
      return x;
    };
    const x = wave(a, floorA);
    const y = wave(b, floorB);
    const hits: number[] = [];
    const soon: number[] = [];
    for (let i = 0; i < frames; i += step) {
      const n = Math.min(step, frames - i);
      const at = this.detector.run(x.subarray(i, i + n), y.subarray(i, i + n), n);
      if (at >= 0) hits.push(at / BLOCK_FRAMES);
      if (this.detector.soon >= 0) soon.push(this.detector.soon / BLOCK_FRAMES);
    }
    return { hits, soon };
  }

  clear(): void {
    this.detector.clear();
  }
}

/** [re, im] by bin number */
export type MadeSpectrum = Record<number, readonly [number, number]>;

/** Levels of four bands of A, then of B, dB; the spectra's bins are 10 Hz wide. */
export function printOf(a: MadeSpectrum, b: MadeSpectrum, sampleRate = RATE): { a: number[]; b: number[] } {
  const size = sampleRate / 10;
  const parts = (s: MadeSpectrum, part: 0 | 1): Float64Array =>
    Float64Array.from({ length: size / 2 + 1 }, (_, k) => s[k]?.[part] ?? 0);
  const spectra: Pick<Gcc, 'aRe' | 'aIm' | 'bRe' | 'bIm'> = {
    aRe: parts(a, 0),
    aIm: parts(a, 1),
    bRe: parts(b, 0),
    bIm: parts(b, 1),
  };
  const out = new Float64Array(FINGERPRINT + 4).fill(Number.NaN);
  new Fingerprints(sampleRate, size).write(spectra as Gcc, out, 2);
  return {
    a: [...out.subarray(2, 2 + BANDS_A_CHANNEL)],
    b: [...out.subarray(2 + BANDS_A_CHANNEL, 2 + FINGERPRINT)],
  };
}

/** A straight rise from `at` on to `height`, held, and a straight fall to 0; frames, fractional. */
export interface Push {
  at: number;
  height: number;
  rise: number;
  hold?: number;
  fall?: number;
}

const heightAt = ({ at, height, rise, hold = 0, fall = rise }: Push, n: number): number => {
  const t = n - at;
  if (t <= 0 || t >= rise + hold + fall) return 0;
  if (t < rise) return (height * t) / rise;
  return t <= rise + hold ? height : (height * (rise + hold + fall - t)) / fall;
};

const WAVE_FRAMES = 10000;

export function ringOf(pushes: readonly Push[]): Ring {
  const ring = new Ring(WAVE_FRAMES);
  const x = Float64Array.from({ length: WAVE_FRAMES }, (_, n) => pushes.reduce((sum, p) => sum + heightAt(p, n), 0));
  ring.push(x, x.length);
  return ring;
}

/** one sample */
export const spike = (at: number, height: number): Push => ({ at: at - 1, height, rise: 1, fall: 1 });

/** frames after the trigger that a first arrival is picked from */
export const lookAheadFrames = (): number => new ArrivalPicker(RATE, REACH_MS).lookAheadFrames;

/** @param arrival what is filled in */
export function arrivalOf(pushes: readonly Push[], trigger: number, arrival = new Arrival()): Arrival {
  new ArrivalPicker(RATE, REACH_MS).pick(ringOf(pushes), trigger, arrival);
  return arrival;
}

/** @param top what the channel holds above 2 kHz @param onset where the whole signal begins; NaN where that isn't known */
export function lowPushOf(
  pushes: readonly Push[],
  trigger: number,
  top: readonly Push[] = [],
  onset = Number.NaN,
): LowPush {
  const push = new LowPush();
  new LowPushPicker(RATE, REACH_MS).pick(ringOf(pushes), ringOf(top), trigger, onset, push);
  return push;
}
