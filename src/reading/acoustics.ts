/**
 * Speed of sound and comb filters: the arithmetic of a path difference.
 *
 * Delays are B minus A, seconds (positive: B hears the drum later); only |τ| matters to a comb. Level differences are
 * B over A, dB; only |L| matters to depths. Frequencies are Hz. Every function is pure; NaN in gives NaN or an empty
 * list out. Combs: F. A. Everest, K. C. Pohlmann, "Master Handbook of Acoustics", ch. 10 (first null 1/(2τ), then every 1/τ).
 */
import type { Polarity } from './reading';

/** Deepest value that a sum in dB takes here: a perfect null is −∞, which no plot or sentence can use. */
export const SUM_FLOOR_DB = -60;

/** Two equal microphones' power sum over one of them, dB: 10·log10(2). */
export const POWER_SUM_DB = 10 * Math.log10(2);

/**
 * Speed of sound in dry air, m/s, ideal gas: 331.3·√(1+t/273.15); within 0.8 m/s of Cramer (JASA 93, 1993) for 0–30 °C, dry.
 * @param temperatureC −20…50
 */
export function speedOfSound(temperatureC: number): number {
  return 331.3 * Math.sqrt(1 + temperatureC / 273.15);
}

/** Path of sound during `delaySeconds`, cm. */
export function pathCm(delaySeconds: number, temperatureC: number): number {
  return delaySeconds * speedOfSound(temperatureC) * 100;
}

/** Path of sound during one sample, cm. */
export function cmPerSample(sampleRate: number, temperatureC: number): number {
  return (speedOfSound(temperatureC) * 100) / sampleRate;
}

/** Delay of a path difference, s. */
export function delaySeconds(pathCm: number, temperatureC: number): number {
  return pathCm / 100 / speedOfSound(temperatureC);
}

/**
 * Notches of A+B, Hz, rising, none above `upToHz`: same polarity (2k+1)/(2|τ|), inverted k/|τ| (Everest & Pohlmann, ch. 10).
 * An inverted pair's first notch is 0 Hz: a number to report, not one that a logarithmic axis can draw.
 * Without a delay a same-polarity pair has none, and an inverted one has 0 Hz alone: it cancels everywhere alike.
 */
export function notchesHz(delaySeconds: number, polarity: Polarity, upToHz = 20000): number[] {
  const tau = Math.abs(delaySeconds);
  if (!Number.isFinite(tau) || !(upToHz >= 0)) return [];
  if (tau === 0) return polarity === 'inverted' ? [0] : [];
  const first = polarity === 'inverted' ? 0 : 0.5;
  const notches: number[] = [];
  for (let k = 0; (k + first) / tau <= upToHz; k++) notches.push((k + first) / tau);
  return notches;
}

/**
 * Where A+B is thinner than one microphone alone, levels equal: list of [lowHz, highHz], rising, cut at `upToHz`.
 * |1 ± exp(−j2πfτ)| < 1, so: same polarity from (n+1/3)/|τ| to (n+2/3)/|τ|; inverted from (n−1/6)/|τ| to (n+1/6)/|τ|, n = 0
 * starting at 0 Hz. Follows from the sum of two equal tones ("Audio Engineering: Know It All", table 2.9: 0 dB at 120°).
 */
export function thinZonesHz(delaySeconds: number, polarity: Polarity, upToHz = 20000): [number, number][] {
  const tau = Math.abs(delaySeconds);
  if (!Number.isFinite(tau) || !(upToHz > 0)) return [];
  if (tau === 0) return polarity === 'inverted' ? [[0, upToHz]] : [];
  const centre = polarity === 'inverted' ? 0 : 0.5;
  const zones: [number, number][] = [];
  for (let n = 0; (n + centre - 1 / 6) / tau < upToHz; n++) {
    zones.push([Math.max(0, (n + centre - 1 / 6) / tau), Math.min(upToHz, (n + centre + 1 / 6) / tau)]);
  }
  return zones;
}

export interface CombDb {
  /** re the power sum of A and B (what they would make if unrelated) */
  rePowerSumDb: number;
  /** re the louder of the two alone */
  reLouderDb: number;
}

/**
 * Level at `fHz` of a wave plus its copy delayed by `delaySeconds`, `levelDifferenceDb` apart, dB, floored at SUM_FLOOR_DB:
 * |1 + p·g·exp(−j2πfτ)|², g the ratio of amplitudes, p = ±1.
 */
export function combDb(fHz: number, delaySeconds: number, polarity: Polarity, levelDifferenceDb = 0): CombDb {
  const g = 10 ** (-Math.abs(levelDifferenceDb) / 20);
  const p = polarity === 'inverted' ? -1 : 1;
  const power = 1 + g * g + 2 * p * g * Math.cos(2 * Math.PI * fHz * delaySeconds);
  return { rePowerSumDb: flooredDb(power / (1 + g * g)), reLouderDb: flooredDb(power) };
}

/** Depth of a comb's notches re the louder alone, dB ≤ 0: 20·log10(1 − 10^(−|L|/20)), floored at SUM_FLOOR_DB. */
export function notchDepthDb(levelDifferenceDb: number): number {
  return flooredDb((1 - 10 ** (-Math.abs(levelDifferenceDb) / 20)) ** 2);
}

/** Height of a comb's peaks re the louder alone, dB, 0…6.02: 20·log10(1 + 10^(−|L|/20)). */
export function peakDb(levelDifferenceDb: number): number {
  return 20 * Math.log10(1 + 10 ** (-Math.abs(levelDifferenceDb) / 20));
}

/**
 * Level of A+B re the power sum, dB, A and B brought to equal level: 10·log10(1 + Re γ), SUM_FLOOR_DB…+3.01.
 * A−B is `sumDbFromCoherency(-reGamma)`.
 * @param reGamma real part of the complex coherency, −1…+1 (clamped: an estimate may step over by rounding)
 */
export function sumDbFromCoherency(reGamma: number): number {
  return flooredDb(1 + Math.max(-1, Math.min(1, reGamma)));
}

/**
 * Re γ at `fHz` after B's delay has fallen by `shiftSeconds` (B moved closer by shift·c, or A delayed by it) and B was,
 * if so, inverted. With γ(f) = |γ|·exp(−j2πfτ), B late = positive τ (see SumSpectrum in reading.ts), the moved one is
 * γ·exp(+j2πf·shift).
 */
export function predictedCoherency(re: number, im: number, fHz: number, shiftSeconds: number, invert: boolean): number {
  const turn = 2 * Math.PI * fHz * shiftSeconds;
  const moved = re * Math.cos(turn) - im * Math.sin(turn);
  return invert ? -moved : moved;
}

/** 10·log10 of a power ratio, floored; NaN stays NaN. */
function flooredDb(powerRatio: number): number {
  if (Number.isNaN(powerRatio)) return Number.NaN;
  return powerRatio > 0 ? Math.max(SUM_FLOOR_DB, 10 * Math.log10(powerRatio)) : SUM_FLOOR_DB;
}
