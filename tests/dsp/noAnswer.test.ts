/** Inputs that have no answer: the engine may say anything but `measured`, and no number may be NaN. */

import { describe, expect, it } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { type Flat, flat } from '../support/readings/flat';
import { Gauss } from '../support/sound/gauss';
import { pairOfHits } from '../support/sound/simpleKit';

const RATE = 44100;
const FRAMES = RATE * 8;
type Make = (i: number) => number;

function run(a: Float32Array, b: Float32Array): { states: Set<string>; last: Flat } {
  const engine = new Engine(RATE);
  const states = new Set<string>();
  for (let i = 0; i < a.length; i += 2048) {
    engine.push(a.subarray(i, i + 2048), b.subarray(i, i + 2048));
    states.add(flat(engine.reading()).state);
  }
  engine.flush();
  return { states, last: flat(engine.reading()) };
}

const made = (f: Make): Float32Array => Float32Array.from({ length: FRAMES }, (_, i) => f(i));

function noNaN(value: unknown, path = 'reading'): void {
  // the spectrum's arrays carry NaN for "not carried" by contract
  if (path === 'reading.spectrum') return;
  if (typeof value === 'number') expect(Number.isFinite(value), path).toBe(true);
  else if (ArrayBuffer.isView(value) || Array.isArray(value))
    for (const v of value as Iterable<unknown>) noNaN(v, path);
  else if (value !== null && typeof value === 'object')
    for (const [key, v] of Object.entries(value)) noNaN(v, `${path}.${key}`);
}

const gaussA = new Gauss(11);
const gaussB = new Gauss(12);
const noiseA = made(() => 0.1 * gaussA.next());
const noiseB = made(() => 0.1 * gaussB.next());
const burst = (x: Float32Array): Float32Array => x.map((v, i) => 3 * v * Math.exp(-(i % 20000) / 3000));
const snare = pairOfHits({ sampleRate: RATE, hits: 12 });
const other = pairOfHits({ sampleRate: RATE, hits: 12, seed: 99 });
const late = (x: Float32Array, n: number): Float32Array => x.map((_, i) => x[i - n] ?? 0);

const cases: [string, Float32Array, Float32Array, string][] = [
  ['silence', made(() => 0), made(() => 0), 'no-signal'],
  ['DC', made(() => 0.4), made(() => -0.2), 'no-signal'],
  ['NaN and Inf', made(() => Number.NaN), made((i) => (i % 2 ? Infinity : -Infinity)), 'no-signal'],
  ['denormals', made(() => 1e-40), made(() => -1e-40), 'no-signal'],
  ['hum', made((i) => 0.1 * Math.sin(i / 140.4)), made((i) => 0.05 * Math.sin(i / 140.4 + 1)), 'listening'],
  ['unrelated noise', noiseA, noiseB, 'listening'],
  ['one noise, one later', noiseA, late(noiseA, 20), 'listening'],
  ['unrelated bursts at the same times', burst(noiseA), burst(noiseB), 'unclear'],
  ['unrelated drums', snare.a, late(other.b, 9000), 'unclear'],
  ['one signal twice', snare.a, snare.a, 'same-signal'],
  ['one signal twice, other gain and sign', snare.a, snare.a.map((x) => -0.3 * x), 'same-signal'],
  ['B dead', snare.a, snare.a.map(() => 0), 'no-signal'],
  ['A dead but for noise', snare.a.map(() => 1e-4 * gaussA.next()), snare.b, 'no-signal'],
  ['clipped', snare.a.map((x) => Math.max(-1, Math.min(1, 30 * x))), snare.b, 'overloaded'],
];

describe('never measured', () => {
  for (const [name, a, b, state] of cases)
    it(`${name}: ${state}`, () => {
      const { states, last } = run(a, b);
      expect(states).not.toContain('measured');
      expect(last.state).toBe(state);
      expect(last.delaySamples).toBeNull();
      expect(last.polarity).toBeNull();
      noNaN(last);
    });
});

it('a short silent file is silent all the same, once it has ended', () => {
  const engine = new Engine(RATE);
  const none = new Float32Array(RATE / 2);
  engine.push(none, none);
  expect(flat(engine.reading()).state).toBe('listening');
  engine.flush();
  expect(flat(engine.reading()).state).toBe('no-signal');
  expect(flat(engine.reading()).reason).toBe('both-silent');
});
