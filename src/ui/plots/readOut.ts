/** What stands at one place of a plot, in words: under the pointer or at the keys. */
import { SUM_HZ } from '../../state/views/sumView';
import { HISTORY_SECONDS, type TraceHistory } from '../../state/views/traceHistory';
import { hzText } from '../../text/frequency';
import { signed } from '../../text/number';
import { fixedSeconds, signedMsText } from '../../text/time';
import type { CurveDrawing, PushesDrawing } from './paint/paintArrival';
import type { SumDrawing } from './paint/paintSum';

/** a point of the trace, or a hit, that lies so near is the one meant, s */
const NEAR_SECONDS = 0.15;
/** a hit that lies so near is the one meant, of the picture's width */
const NEAR_SHARE = 0.03;

const db = (level: number): string => `${signed(level, 1)} dB`;

const OTHER_WORDS = { after: 'after', without: 'without inverting', tried: 'tried' } as const;

/** "208 Hz: −13.4 dB now, +5.4 dB after" @param point of SUM_HZ */
export function sumAt(view: SumDrawing | null, point: number): string {
  const hz = SUM_HZ[point];
  if (hz === undefined) return '';
  const now = view?.nowDb[point] ?? null;
  const other = view?.otherDb?.[point] ?? null;
  if (view === null) return `${hzText(hz)}: nothing measured yet`;
  const none = view.tooFew ? 'no value yet, too few hits' : 'no value, the hits differ';
  const parts = [now === null ? none : `${db(now)} now`];
  if (other !== null) parts.push(`${db(other)} ${OTHER_WORDS[view.other]}`);
  const comb = view.combShown ? (view.comb?.db[point] ?? null) : null;
  if (comb !== null) parts.push(`comb ${db(comb)}`);
  return `${hzText(hz)}: ${parts.join(', ')}`;
}

/** Index of the value nearest to `wanted` in a rising list; −1: the list is empty. */
function nearest(rising: readonly number[], wanted: number): number {
  let [low, high] = [0, rising.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rising[middle] as number) < wanted) low = middle + 1;
    else high = middle;
  }
  const before = rising[low - 1];
  return before !== undefined && wanted - before < (rising[low] as number) - wanted ? low - 1 : low;
}

/** "−12.3 s: −0.59, hit 14 −0.61" @param seconds from now, −30…0 */
export function traceAt(history: TraceHistory, bandIndex: number, seconds: number): string {
  const at = history.nowSeconds + Math.max(-HISTORY_SECONDS, Math.min(0, seconds));
  const i = history.times.length > 0 ? nearest(history.times, at) : -1;
  const near = i >= 0 && Math.abs((history.times[i] as number) - at) < NEAR_SECONDS;
  const value = near ? (history.values[bandIndex]?.[i] ?? null) : null;
  const hit = history.hits.find(({ atSeconds }) => Math.abs(atSeconds - at) < NEAR_SECONDS);
  const ofHit = hit?.values[bandIndex] ?? null;
  const parts = [value === null ? 'no value' : signed(value, 2)];
  if (hit) parts.push(`hit ${hit.serial} ${ofHit === null ? 'no value' : signed(ofHit, 2)}`);
  return `${fixedSeconds(at - history.nowSeconds, 1)}: ${parts.join(', ')}`;
}

/** from here on a path is told in whole cm */
const WHOLE_FROM_CM = 9.95;

function lag(ms: number, cmPerMs: number): string {
  const cm = ms * cmPerMs;
  return `${signedMsText(ms)}, ${signed(cm, Math.abs(cm) < WHOLE_FROM_CM ? 1 : 0)} cm`;
}

/** Serial of the hit whose delay is meant; null: none lies near. */
export function hitNear(view: PushesDrawing | null, ms: number | null): number | null {
  if (!view || ms === null) return null;
  let best: { serial: number; apart: number } | null = null;
  for (const { serial, delayMs } of view.hits) {
    const apart = Math.abs(delayMs - ms);
    if (apart <= NEAR_SHARE * view.lengthMs && (best === null || apart <= best.apart)) best = { serial, apart };
  }
  return best?.serial ?? null;
}

/** "+0.07 ms, +2.4 cm, hit 14" */
export function pushesAt(view: PushesDrawing, ms: number): string {
  const serial = hitNear(view, ms);
  return lag(ms, view.cmPerMs) + (serial === null ? '' : `, hit ${serial}`);
}

/** "+0.29 ms, +10 cm: −0.31" */
export function curveAt(view: CurveDrawing, ms: number): string {
  const i = view.lagsMs.length > 0 ? nearest(view.lagsMs, ms) : -1;
  const fit = view.hits > 0 ? view.values[i] : undefined;
  return lag(ms, view.cmPerMs) + (fit === undefined ? '' : `: ${signed(fit, 2)}`);
}
