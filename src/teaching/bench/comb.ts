/**
 * A+B over frequency, dB re the louder mic alone: |a·Hₐ(f) + b·H_b(f)·e^(−j2πfτ)|, a and b the levels with their pushes,
 * H = 1 for a mic, a low-pass for a speaker used as one (Everest & Pohlmann, "Master Handbook of Acoustics", ch. 10).
 */
import { SUM_FLOOR_DB } from '../../reading/acoustics';
import type { BenchFigures } from './figures';
import { figuresOf } from './figures';
import type { Bench, BenchMic } from './model';
import { speakerAt } from './speaker';

export const COMB_HZ = { low: 30, high: 16000 } as const;

const responseOf = ({ kind }: BenchMic, hz: number): { re: number; im: number } =>
  kind === 'speaker' ? speakerAt(hz) : { re: 1, im: 0 };

/** @param figures of that bench, where they are at hand */
export function sumDbAt(bench: Bench, hz: number, figures: BenchFigures = figuresOf(bench)): number {
  const { a, b, delayMs } = figures;
  const [ha, hb] = [responseOf(bench.a, hz), responseOf(bench.b, hz)];
  const ga = a.push * 10 ** (a.levelDb / 20);
  const gb = b.push * 10 ** (b.levelDb / 20);
  const turn = (-2 * Math.PI * hz * delayMs) / 1000;
  const re = ga * ha.re + gb * (hb.re * Math.cos(turn) - hb.im * Math.sin(turn));
  const im = ga * ha.im + gb * (hb.im * Math.cos(turn) + hb.re * Math.sin(turn));
  const power = re * re + im * im;
  return power > 0 ? Math.max(SUM_FLOOR_DB, 10 * Math.log10(power)) : SUM_FLOOR_DB;
}

export interface CombPoint {
  /** along the axis, 0…1, logarithmic */
  along: number;
  db: number;
}

/** The curve, in equal steps of the logarithmic axis, and at each notch, which the steps would miss. @param points at least 2 */
export function combCurve(bench: Bench, points: number): CombPoint[] {
  const figures = figuresOf(bench);
  const steps = Array.from({ length: points }, (_, i) => i / (points - 1));
  const notches = (figures.notchesHz ?? []).filter((hz) => hz > COMB_HZ.low && hz < COMB_HZ.high).map(alongOf);
  return [...steps, ...notches]
    .sort((p, q) => p - q)
    .map((along) => ({ along, db: sumDbAt(bench, hzAlong(along), figures) }));
}

export const hzAlong = (along: number): number => COMB_HZ.low * (COMB_HZ.high / COMB_HZ.low) ** along;
export const alongOf = (hz: number): number => Math.log(hz / COMB_HZ.low) / Math.log(COMB_HZ.high / COMB_HZ.low);
