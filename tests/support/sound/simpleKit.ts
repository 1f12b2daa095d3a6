/** Small seeded hits for tests of the engine: a sharp push, a few tones, two unlike paths. Not the demo kit's model. */
import { Gauss } from './gauss';

export interface PairOptions {
  sampleRate: number;
  hits: number;
  /** B later by so many samples (fractional), or so many at hit h */
  delaySamples: number | ((h: number) => number);
  /** +1 or −1 on B */
  sign: number;
  gainA: number;
  gainB: number;
  /** RMS of independent noise on each channel */
  noise: number;
  seed: number;
}

export interface Pair {
  a: Float32Array;
  b: Float32Array;
}

const SPACING_SECONDS = 0.6;
const TONES_HZ = [187, 331, 446, 1230, 2400];

/** A hit's sound at t seconds after its arrival: nothing before 0, then a push of 0.4 ms and ringing tones. */
function sound(t: number, force: number): number {
  if (t <= 0) return 0;
  const push = t < 0.0004 ? Math.sin((Math.PI * t) / 0.0004) : 0;
  let ring = 0;
  for (const [i, hz] of TONES_HZ.entries())
    ring += (Math.sin(2 * Math.PI * hz * t) * Math.exp(-t * (14 + 30 * i))) / (1 + 0.6 * i);
  return force * (0.5 * push + 0.4 * ring);
}

/** Hits of one drum in two microphones, A and B alike but for delay, sign, gain, noise and one reflection each. */
export function pairOfHits(options: Partial<PairOptions> = {}): Pair {
  const o: PairOptions = {
    sampleRate: 48000,
    hits: 8,
    delaySamples: 12.4,
    sign: 1,
    gainA: 0.5,
    gainB: 0.3,
    noise: 1e-5,
    seed: 1,
    ...options,
  };
  const gauss = new Gauss(o.seed);
  const frames = Math.round((o.hits * SPACING_SECONDS + 0.4) * o.sampleRate);
  const a = new Float32Array(frames);
  const b = new Float32Array(frames);
  for (let h = 0; h < o.hits; h++) {
    const at = 0.4 + h * SPACING_SECONDS + 0.02 * gauss.uniform();
    const force = 0.6 + 0.4 * gauss.uniform();
    const delay = typeof o.delaySamples === 'number' ? o.delaySamples : o.delaySamples(h);
    const later = delay / o.sampleRate;
    const from = Math.floor((at - 0.02) * o.sampleRate);
    const to = Math.min(frames, Math.floor((at + SPACING_SECONDS - 0.05) * o.sampleRate));
    for (let i = from; i < to; i++) {
      const t = i / o.sampleRate - at;
      a[i] = (a[i] as number) + o.gainA * (sound(t, force) + 0.2 * sound(t - 0.0031, force));
      b[i] = (b[i] as number) + o.sign * o.gainB * (sound(t - later, force) + 0.15 * sound(t - later - 0.0043, force));
    }
  }
  for (let i = 0; i < frames; i++) {
    a[i] = (a[i] as number) + o.noise * gauss.next();
    b[i] = (b[i] as number) + o.noise * gauss.next();
  }
  return { a, b };
}
