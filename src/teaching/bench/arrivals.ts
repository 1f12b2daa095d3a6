/** Both arrivals in time: a first push, up or down, and the swing back that follows it. A drawing of a pulse, no drum's own. */
import type { Bench, BenchMic } from './model';
import { SPEAKER_LATE_MS } from './speaker';

/** ms from the first push's beginning to its summit */
const RISE_MS = 0.12;

/** What the time axis can be long, ms. */
const SPANS_MS = [2, 4, 8, 16, 32] as const;

/** Height at `ms` after the arrival, −1…+1, for a first push upwards; 0 before it. */
export function pulseAt(ms: number, { kind }: Pick<BenchMic, 'kind'> = { kind: 'mic' }): number {
  if (ms <= 0) return 0;
  // a speaker's push begins when a mic's would, and rises as slowly as its lows are late
  const rise = kind === 'speaker' ? SPEAKER_LATE_MS : RISE_MS;
  const t = ms / rise;
  return Math.sin((Math.PI / 2) * t) * Math.exp(-((t / 2.6) ** 2)) * 1.16;
}

/** The shortest span that shows both arrivals and their pushes, ms. */
export function spanMs(delayMs: number, bench: Pick<Bench, 'a' | 'b'>): number {
  const tail = bench.a.kind === 'speaker' || bench.b.kind === 'speaker' ? 4 * SPEAKER_LATE_MS : 0.9;
  const needed = Math.abs(delayMs) + tail;
  return SPANS_MS.find((span) => span >= needed) ?? SPANS_MS[SPANS_MS.length - 1];
}
