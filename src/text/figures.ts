/** Numbers as text. A missing value is an en dash, minus is a real minus sign. */

import type { Fuller } from '../reading/codes';
import { fixed } from './lengths';

export const NO_VALUE = '–';
/** The same with a plus sign where it is positive. */
export function signed(value: number, decimals: number): string {
  const text = fixed(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

export function dbfsText(value: number | null): string {
  return value === null ? NO_VALUE : `${fixed(value, 1)} dBFS`;
}

export function dbText(value: number | null): string {
  return value === null ? NO_VALUE : `${fixed(value, 1)} dB`;
}

/** 41.2 Hz → "41 Hz", 1234 → "1.23 kHz", 12345 → "12.3 kHz". */
export function hzText(hz: number): string {
  if (hz < 999.5) return `${fixed(hz, 0)} Hz`;
  return `${fixed(hz / 1000, hz < 9995 ? 2 : 1)} kHz`;
}

/** For axes and crowded labels: "500", "1.2k", "12k". */
export function hzShort(hz: number): string {
  if (hz < 999.5) return fixed(hz, 0);
  const text = fixed(hz / 1000, hz < 9950 ? 1 : 0);
  return `${text.endsWith('.0') ? text.slice(0, -2) : text}k`;
}

export function bandText(lowHz: number, highHz: number): string {
  if (highHz < 999.5) return `${fixed(lowHz, 0)}–${fixed(highHz, 0)} Hz`;
  return `${hzText(lowHz)}–${hzText(highHz)}`;
}

export function msText(ms: number | null): string {
  return ms === null ? NO_VALUE : `${signed(ms, Math.abs(ms) < 10 ? 3 : 2)} ms`;
}

export function samplesText(samples: number | null): string {
  return samples === null ? NO_VALUE : `${signed(samples, 1)} samples`;
}

export function percentText(share: number): string {
  return `${fixed(share * 100, 0)} %`;
}

/** Splits a text into what may break (even places) and numbers with their units (odd places): "±4 mm", "(90 %)", "2.5 cm". */
export function numberRuns(text: string): string[] {
  return text.split(
    /(\(?[±+−-]?\d[\d.,]*[ \u00a0](?:%|mm|cm|ms|dB|dBFS|Hz|kHz|°C|m|s|µs|samples?|(?:centi|milli)?metres?|milliseconds?)(?![\p{L}\d])\)?)/u,
  );
}

/** Which polarity of B sums to more, told from what the meter shows now: its own invert is part of that. */
export function fullerText(fuller: Fuller | null, byDb: number | null, invertB: boolean): string {
  if (fuller === null) return NO_VALUE;
  if (fuller === 'either') return 'either, below 1 dB';
  const asShown = invertB ? 'as the meter has it' : 'as it is';
  const turned = invertB ? 'without the meter’s invert' : 'with B inverted';
  return `${fuller === 'as-is' ? asShown : turned}, by ${dbText(Math.abs(byDb ?? 0))}`;
}

/** A number for a data attribute: machine-readable, empty when there is none. */
export function dataNumber(value: number | null | undefined, decimals = 4): string {
  return value === null || value === undefined || !Number.isFinite(value) ? '' : value.toFixed(decimals);
}
