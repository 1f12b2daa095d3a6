import { describe, expect, it } from 'vitest';
import { Stack } from '../../../src/dsp/delay/stack';
import { Arrival, ArrivalPicker } from '../../../src/dsp/hit/arrival';
import { HitWaves } from '../../../src/dsp/hit/hitWaves';
import { Ring } from '../../../src/dsp/signal/ring';
import { Gauss } from '../../support/sound/gauss';

const RATE = 44100;
const REACH_MS = 11;
const GAP = Math.round(0.2 * RATE);

/** A drum of our own: a soft first push of 12 % the one way, then a swing the other way that rings down. */
function drum(seconds: number): number {
  const push = 0.0004;
  if (seconds < 0) return 0;
  if (seconds < push) return 0.12 * Math.sin((Math.PI * seconds) / push);
  const t = seconds - push;
  return -Math.sin(2 * Math.PI * 400 * t) * Math.exp(-t / 0.02) * (1 - Math.exp(-t / 0.0002));
}

interface Case {
  hits: number;
  /** RMS of white noise in each channel re the loudest peak */
  noise: number;
  delaySamples: number;
  sign: number;
  seed: number;
  /** what a hit sounds like; the drum unless told */
  sound?: (hit: number, channel: 0 | 1) => (seconds: number) => number;
}

interface Played {
  a: Ring;
  b: Ring;
  waves: HitWaves;
  slots: Int32Array;
  triggers: number[];
}

function play(c: Case): Played {
  const draw = new Gauss(c.seed);
  const frames = (c.hits + 1) * GAP;
  const x = Float64Array.from({ length: frames }, () => c.noise * draw.next());
  const y = Float64Array.from({ length: frames }, () => c.noise * draw.next());
  const sound = c.sound ?? (() => drum);
  const triggers: number[] = [];
  for (let h = 0; h < c.hits; h++) {
    const at = (h + 0.5) * GAP + draw.uniform();
    const loud = 0.5 + 0.5 * draw.uniform();
    const [inA, inB] = [sound(h, 0), sound(h, 1)];
    for (let k = Math.floor(at) - 200; k < at + 0.03 * RATE; k++) {
      x[k] = (x[k] as number) + loud * inA((k - at) / RATE);
      const late = k - at - c.delaySamples;
      y[k] = (y[k] as number) + c.sign * loud * inB(late / RATE);
    }
    // the trigger comes with a block of 0.75 ms, anywhere in it
    triggers.push(Math.round(at + Math.min(0, c.delaySamples) + 20 - 33 * draw.uniform()));
  }
  const a = new Ring(frames);
  const b = new Ring(frames);
  a.push(x, frames);
  b.push(y, frames);
  const waves = new HitWaves(RATE, REACH_MS, a, b);
  triggers.forEach((t, slot) => {
    waves.keep(slot, t);
  });
  return { a, b, waves, slots: Int32Array.from(triggers, (_, i) => i), triggers };
}

function stacked(c: Case): Stack {
  const { waves, slots } = play(c);
  const stack = new Stack(RATE, waves);
  stack.begin(slots, c.hits);
  let calls = 0;
  while (!stack.work()) expect(calls++).toBeLessThan(100);
  return stack;
}

describe('hits laid on each other', () => {
  it('show a soft first push that noise hides in the single hits', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const c: Case = { hits: 12, noise: 0.007, delaySamples: 60.4, sign: -1, seed };
      const { a, b, triggers } = play(c);
      const picker = new ArrivalPicker(RATE, REACH_MS);
      const arrival = new Arrival();
      for (const t of triggers) {
        for (const ring of [a, b]) {
          picker.pick(ring, t, arrival);
          expect(arrival.found && !arrival.noiseBound).toBe(false);
        }
      }
      const stack = stacked(c);
      expect(stack.sign).toBe(-1);
      expect(Math.abs(stack.delay - 60.4)).toBeLessThan(2);
      expect(Math.abs(stack.delay - 60.4)).toBeLessThan(4 * stack.noiseMove + 0.5);
      expect(stack.members).toBe(12);
    }
  });

  it('read the delay to a fraction of a sample where there is little noise, either way round', () => {
    for (const delaySamples of [-75.3, -0.5, 0, 33.25, 150.7]) {
      const stack = stacked({ hits: 8, noise: 0.0005, delaySamples, sign: 1, seed: 7 });
      expect(stack.sign).toBe(1);
      expect(Math.abs(stack.delay - delaySamples)).toBeLessThan(0.2);
    }
  });

  it('have no answer where noise leaves room for a hidden first push', () => {
    for (let seed = 1; seed <= 20; seed++)
      expect(stacked({ hits: 12, noise: 0.06, delaySamples: 60, sign: -1, seed }).sign).toBe(0);
  });

  it('have no answer from fewer than four hits', () => {
    expect(stacked({ hits: 3, noise: 0.0005, delaySamples: 60, sign: 1, seed: 1 }).sign).toBe(0);
  });

  it('have no answer where B hears something else at each hit, and leave out what is unlike', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const draw = new Gauss(100 + seed);
      const burst = (): ((seconds: number) => number) => {
        const parts = Array.from({ length: 6 }, () => [200 + 3000 * draw.uniform(), 6.3 * draw.uniform()] as const);
        const late = 0.006 * draw.uniform();
        return (s) =>
          s < late ? 0 : parts.reduce((sum, [hz, at]) => sum + Math.sin(6.283 * hz * s + at), 0) * Math.exp(-s / 0.01);
      };
      const sound: Case['sound'] = (_, channel) => (channel === 0 ? drum : burst());
      expect(stacked({ hits: 12, noise: 0.005, delaySamples: 40, sign: 1, seed, sound }).sign).toBe(0);
      const all = stacked({ hits: 12, noise: 0.005, delaySamples: 40, sign: 1, seed, sound: burst });
      expect(all.sign).toBe(0);
      expect(all.members).toBeLessThan(12);
    }
  });

  it('have no answer where a microphone stands elsewhere in half of the hits', () => {
    const sound: Case['sound'] = (hit, channel) => (channel === 1 && hit >= 6 ? (s: number) => drum(s - 0.0004) : drum);
    expect(stacked({ hits: 12, noise: 0.002, delaySamples: 40, sign: 1, seed: 3, sound }).sign).toBe(0);
  });
});
