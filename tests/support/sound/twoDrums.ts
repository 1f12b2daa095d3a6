/** Two made-up drums, struck in turn: a low one and a high one, each with its own delay and polarity at B. Not the demo kit's model. */
import { Gauss } from './gauss';

export interface StruckDrum {
  tonesHz: readonly number[];
  /** length of the first push, s */
  pushSeconds: number;
  gainA: number;
  gainB: number;
  /** B later by so many samples, and ±1 on B */
  delaySamples: number;
  sign: number;
}

export const LOW: StruckDrum = {
  tonesHz: [82, 131, 190],
  pushSeconds: 0.0012,
  gainA: 0.3,
  gainB: 0.3,
  delaySamples: 30,
  sign: 1,
};
export const HIGH: StruckDrum = {
  tonesHz: [410, 733, 1490, 3100],
  pushSeconds: 0.0003,
  gainA: 0.6,
  gainB: 0.2,
  delaySamples: -20.5,
  sign: -1,
};

/** Two that two overheads hear alike, one nearer to A and one nearer to B: nothing tells which of them a pair is about. */
export const BETWEEN: StruckDrum[] = [
  { ...HIGH, gainA: 0.4, gainB: 0.4, delaySamples: 40, sign: 1 },
  { ...HIGH, tonesHz: [150, 1490, 3100, 4000], gainA: 0.4, gainB: 0.4, delaySamples: -35, sign: 1 },
];

const SPACING_SECONDS = 0.4;

/** Strikes of the drums in turn, `rounds` of each. */
export function twoDrums(
  sampleRate: number,
  rounds: number,
  drums = [LOW, HIGH],
): { a: Float32Array; b: Float32Array } {
  const gauss = new Gauss(5);
  const hits = rounds * drums.length;
  const frames = Math.round((hits * SPACING_SECONDS + 0.8) * sampleRate);
  const a = new Float32Array(frames);
  const b = new Float32Array(frames);
  for (let h = 0; h < hits; h++) {
    const drum = drums[h % drums.length] as StruckDrum;
    const at = 0.4 + h * SPACING_SECONDS + 0.01 * gauss.uniform();
    const force = 0.7 + 0.3 * gauss.uniform();
    const later = drum.delaySamples / sampleRate;
    const from = Math.floor((at - 0.02) * sampleRate);
    for (let i = from; i < Math.min(frames, from + 0.36 * sampleRate); i++) {
      const t = i / sampleRate - at;
      a[i] = (a[i] as number) + drum.gainA * force * sound(drum, t);
      b[i] = (b[i] as number) + drum.gainB * force * drum.sign * sound(drum, t - later);
    }
  }
  for (let i = 0; i < frames; i++) {
    a[i] = (a[i] as number) + 2e-5 * gauss.next();
    b[i] = (b[i] as number) + 2e-5 * gauss.next();
  }
  return { a, b };
}

function sound({ tonesHz, pushSeconds }: StruckDrum, t: number): number {
  if (t <= 0) return 0;
  let x = t < pushSeconds ? 0.5 * Math.sin((Math.PI * t) / pushSeconds) : 0;
  for (const [i, hz] of tonesHz.entries())
    x += (0.4 * Math.sin(2 * Math.PI * hz * t) * Math.exp(-t * (16 + 12 * i))) / (1 + 0.5 * i);
  return x;
}
