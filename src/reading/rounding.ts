/** How finely a path or a delay may be told: no finer than it is known. Numbers in, numbers out. */

/** Steps to which a path may be rounded, cm. */
const PATH_STEPS_CM = [0.5, 1, 2, 5, 10, 20, 50, 100];
/** from here on half centimetres are no longer told */
const WHOLE_FROM_CM = 10;

/**
 * A path rounded to what can be said: 0.5 cm below 10 cm, 1 cm from there; coarser where `accuracyCm` (repeats or
 * uncertainty, whichever is larger) is coarser.
 */
export function roundPathCm(pathCm: number, accuracyCm: number): number {
  const finest = Math.abs(pathCm) >= WHOLE_FROM_CM ? 1 : 0.5;
  let step = finest;
  for (const s of PATH_STEPS_CM) if (s > finest && s <= accuracyCm) step = s;
  return nearest(pathCm / step) * step;
}

/** A delay rounded to 0.01 ms, or to 0.1 ms where it isn't known better (`accuracyMs`). */
export function roundDelayMs(delayMs: number, accuracyMs: number): number {
  const steps = accuracyMs >= 0.1 ? 10 : 100;
  return nearest(delayMs * steps) / steps;
}

/** Nearest whole number, halves away from zero (so that A and B may change places), never −0. */
export function nearest(value: number): number {
  const whole = Math.round(Math.abs(value));
  return value < 0 && whole !== 0 ? -whole : whole;
}
