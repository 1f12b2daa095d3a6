/** Constructed captures, as WAVs that the fake device delivers bit for bit: 44.1 kHz, stereo, 16 bit. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { writeWav } from '../../../src/files/writeWav';

export const CAPTURE_RATE = 44_100;
const folder = fileURLToPath(new URL('../../../.cache/captures/', import.meta.url));

/** Writes A and B (full scale ±1) where the browser can read them. @returns the absolute path */
export function captureWav(name: string, a: Float32Array, b: Float32Array): string {
  mkdirSync(folder, { recursive: true });
  const path = `${folder}${name}.wav`;
  writeFileSync(path, writeWav([a, b], CAPTURE_RATE, 's16'));
  return path;
}

/** A seeded uniform generator on [0, 1) (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/**
 * Plain drum-like hits: a noisy click on a decaying 190 Hz tone, over a low noise floor.
 * @param everySeconds from one hit to the next; the first begins after half of that
 * @returns samples, peak about 0.5
 */
export function hits(seconds: number, everySeconds: number, seed: number): Float32Array {
  const random = seeded(seed);
  const out = new Float32Array(Math.round(seconds * CAPTURE_RATE));
  for (let i = 0; i < out.length; i++) out[i] = (random() - 0.5) * 4e-4;
  for (let start = everySeconds / 2; start < seconds - 0.2; start += everySeconds) {
    const at = Math.round(start * CAPTURE_RATE);
    for (let i = 0; i < 0.18 * CAPTURE_RATE && at + i < out.length; i++) {
      const t = i / CAPTURE_RATE;
      const click = (random() - 0.5) * 0.5 * Math.exp(-t / 0.004);
      out[at + i] += 0.35 * Math.exp(-t / 0.035) * Math.sin(2 * Math.PI * 190 * t) + click;
    }
  }
  return out;
}

/** B as A, `lag` whole samples later, times `gain`. */
export function later(a: Float32Array, lag: number, gain: number): Float32Array {
  return a.map((_, i) => (i >= lag ? gain * a[i - lag] : 0));
}
