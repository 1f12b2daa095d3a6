/** Numbers as they are said: rounded as they deserve, never finer than what is known. */
import { speedOfSound } from '../reading/acoustics';

/** Steps to which a move may be rounded, cm. */
const MOVE_STEPS_CM = [0.5, 1, 2, 5, 10, 20, 50, 100];
/** from here on half centimetres are no longer said */
const WHOLE_FROM_CM = 10;

/** Nearest whole number, halves away from zero (so that A and B may change places), never −0. */
function nearest(x: number): number {
  const whole = Math.round(Math.abs(x));
  return x < 0 && whole !== 0 ? -whole : whole;
}

/** cm per sample at a rate and a temperature. */
export function cmPerSample(sampleRate: number, temperatureC: number): number {
  return (speedOfSound(temperatureC) * 100) / sampleRate;
}

/**
 * A path rounded to what can be said: 0.5 cm below 10 cm, 1 cm from there; coarser where `accuracyCm` (repeats or
 * uncertainty, whichever is larger) is coarser.
 */
export function roundPathCm(pathCm: number, accuracyCm: number): number {
  const finest = Math.abs(pathCm) >= WHOLE_FROM_CM ? 1 : 0.5;
  let step = finest;
  for (const s of MOVE_STEPS_CM) if (s > finest && s <= accuracyCm) step = s;
  return nearest(pathCm / step) * step;
}

/** A delay rounded to 0.01 ms, or to 0.1 ms where it isn't known better (`accuracyMs`). */
export function roundDelayMs(delayMs: number, accuracyMs: number): number {
  const steps = accuracyMs >= 0.1 ? 10 : 100;
  return nearest(delayMs * steps) / steps;
}

const plain = (x: number, decimals: number): string => String(Number(x.toFixed(decimals)));

/** "3", "3.5", "12": a magnitude in cm without its unit. */
export function cmText(cm: number): string {
  const x = Math.abs(cm);
  return x < WHOLE_FROM_CM ? plain(Math.round(x * 2) / 2, 1) : plain(x, 0);
}

/** "3 centimetres": to be said over talkback. */
export function cmSpoken(cm: number): string {
  const text = cmText(cm);
  return text === '1' ? '1 centimetre' : `${text} centimetres`;
}

/** "2.95 ms" */
export function msText(ms: number): string {
  return `${plain(Math.abs(ms), 2)} ms`;
}

/** "2.95 milliseconds": to be said over talkback. */
export function msSpoken(ms: number): string {
  const text = plain(Math.abs(ms), 2);
  return text === '1' ? '1 millisecond' : `${text} milliseconds`;
}

/** "4 mm", "1.3 cm", "12 cm": a scatter or an uncertainty; never 0. */
export function spanText(cm: number): string {
  const x = Math.abs(cm);
  if (x < 0.95) return `${Math.max(1, Math.round(x * 10))} mm`;
  return x < WHOLE_FROM_CM ? `${plain(x, 1)} cm` : `${plain(x, 0)} cm`;
}

/** "3.5 dB": to half a dB, whole from 10 dB. */
export function dbText(db: number): string {
  const x = Math.abs(db);
  return `${x < 10 ? plain(Math.round(x * 2) / 2, 1) : plain(x, 0)} dB`;
}

/** "177 Hz", "3 kHz" */
export function hzText(hz: number): string {
  return hz >= 1000 ? `${plain(hz / 1000, 1)} kHz` : `${plain(hz, 0)} Hz`;
}

/** "60–120 Hz", "800 Hz–3 kHz" */
export function bandText(lowHz: number, highHz: number): string {
  const low = hzText(lowHz);
  const high = hzText(highHz);
  const unit = low.slice(low.indexOf(' '));
  return high.endsWith(unit) ? `${low.slice(0, -unit.length)}–${high}` : `${low}–${high}`;
}

/** "1 hit", "6 hits" */
export function hitsText(n: number): string {
  return n === 1 ? '1 hit' : `${n} hits`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
