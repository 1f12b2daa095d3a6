/** Counts as text: hits, pairs, samples. */
import { fixed, orNoValue, signed } from './number';

/** "1 hit", "6 hits" @param many where it isn't the one with an s */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

export const hitsText = (n: number): string => counted(n, 'hit');

/** "1 sample", "142 samples" */
export const samplesText = (n: number): string => counted(n, 'sample');

/** "−3.2 samples" */
export function samplesFigure(samples: number | null): string {
  return orNoValue(samples, (value) => `${signed(value, 1)} samples`);
}

/** "12.30 samples": so many decimals. */
export function fixedSamples(samples: number, decimals: number): string {
  return `${fixed(samples, decimals)} samples`;
}

/** A delay's size in whole samples, which is what a mix can delay by. */
export function wholeSamples(ms: number, sampleRate: number): number {
  return Math.round((Math.abs(ms) / 1000) * sampleRate);
}

/** "+5", "−142" */
export function samplesColumn(ms: number, sampleRate: number): string {
  return signed(Math.sign(ms) * wholeSamples(ms, sampleRate), 0);
}
