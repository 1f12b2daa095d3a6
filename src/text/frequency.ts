/** Frequencies, bands and sample rates as text. */
import { atMost, fixed } from './number';

/** what rounds to 1000 Hz is told in kHz */
const KHZ_FROM_HZ = 999.5;

/** "177 Hz", "1.2 kHz", "3 kHz" */
export function hzText(hz: number): string {
  return hz >= KHZ_FROM_HZ ? `${atMost(hz / 1000, 1)} kHz` : `${atMost(hz, 0)} Hz`;
}

/** For axes and crowded labels: "500", "1.3k", "12k". */
export function hzShort(hz: number): string {
  return hz >= KHZ_FROM_HZ ? `${atMost(hz / 1000, hz < 9950 ? 1 : 0)}k` : fixed(hz, 0);
}

/** The labels along an axis: the first one tells the unit. @param place in the row, from 0 */
export function hzLabel(hz: number, place: number): string {
  return place === 0 ? hzText(hz) : hzShort(hz);
}

/** "60–120 Hz", "800 Hz–3 kHz", "3–10 kHz" */
export function bandText(lowHz: number, highHz: number): string {
  const low = hzText(lowHz);
  const high = hzText(highHz);
  const unit = low.slice(low.indexOf(' '));
  return high.endsWith(unit) ? `${low.slice(0, -unit.length)}–${high}` : `${low}–${high}`;
}

/** Notches of a comb: "1.1, 3.2 kHz …", "0, 2.1 kHz …", "none" */
export function notchesText(hz: readonly number[]): string {
  const [first, second] = hz;
  if (first === undefined) return 'none';
  if (second === undefined) return hzText(first);
  const [low, high] = [hzText(first), hzText(second)];
  const unit = high.slice(high.indexOf(' '));
  const bare = first === 0 ? '0' : low.endsWith(unit) ? low.slice(0, -unit.length) : low;
  return `${bare}, ${high}${hz.length > 2 ? ' …' : ''}`;
}

/** "48 kHz", "44.1 kHz" */
export function rateText(sampleRate: number): string {
  return `${atMost(sampleRate / 1000, 3)} kHz`;
}
