/** Delays and durations as text. */
import { roundDelayMs } from '../reading/rounding';
import { atMost, fixed, orNoValue, signed } from './number';

/** never told as less, ms: what is known is known to something */
const LEAST_ACCURACY_MS = 0.01;

/** "2.95 ms", "0.4 ms": its size. */
export function msText(ms: number): string {
  return `${atMost(Math.abs(ms), 2)} ms`;
}

/** "2.95 milliseconds" */
export function msSpoken(ms: number): string {
  const text = atMost(Math.abs(ms), 2);
  return text === '1' ? '1 millisecond' : `${text} milliseconds`;
}

/** "+0.29 ms", "0.00 ms" */
export function signedMsText(ms: number): string {
  return `${msColumn(ms)} ms`;
}

/** "+0.073 ms", "−12.35 ms" */
export function msFigure(ms: number | null): string {
  return orNoValue(ms, (value) => `${signed(value, Math.abs(value) < 10 ? 3 : 2)} ms`);
}

/** "0.279 ms": so many decimals. */
export function fixedMs(ms: number, decimals: number): string {
  return `${fixed(ms, decimals)} ms`;
}

/** "+0.10", "−2.95" */
export function msColumn(ms: number): string {
  return signed(roundDelayMs(ms, 0), 2);
}

/** "±0.02", never 0 */
export function accuracyMsColumn(ms: number): string {
  return `±${fixed(Math.max(LEAST_ACCURACY_MS, ms), 2)}`;
}

/** "0.42 s": so many decimals. */
export function fixedSeconds(seconds: number, decimals: number): string {
  return `${fixed(seconds, decimals)} s`;
}
