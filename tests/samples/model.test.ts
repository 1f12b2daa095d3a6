/** The model's parts, each against a plain recomputation or a published value. */
import { describe, expect, it } from 'vitest';
import { butterworthLowPass, highPass2, lowPass1, lowPass2, peak, runBiquad } from '../../samples/model/biquad';
import { MODES, SHAPE_MAX } from '../../samples/model/drum';
import { addMode, addPush, Burst, contactForce } from '../../samples/model/excitation';
import { INNER_RATE, Loop } from '../../samples/model/loop';
import { Random } from '../../samples/model/random';
import figures from '../reference/figures.json';

describe('the random numbers', () => {
  it('are xoshiro128**: the published sequence for the state 1, 2, 3, 4 (test vector of the Rust crate rand_xoshiro)', () => {
    const random = Random.fromState(1, 2, 3, 4);
    expect(Array.from({ length: 10 }, () => random.next32())).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('repeat with seed and label, and only then', () => {
    const draw = (seed: number, label: string) => {
      const random = new Random(seed, label);
      return Array.from({ length: 8 }, () => random.next32());
    };
    expect(draw(5, 'snare')).toEqual(draw(5, 'snare'));
    expect(draw(5, 'snare')).not.toEqual(draw(6, 'snare'));
    expect(draw(5, 'snare')).not.toEqual(draw(5, 'kick'));
  });

  it('are normal where they should be: mean 0, deviation 1, 4.55 % beyond two deviations', () => {
    const random = new Random(1, 'normal');
    const n = 40000;
    const values = Array.from({ length: n }, () => random.normal());
    const mean = values.reduce((sum, v) => sum + v, 0) / n;
    const variance = values.reduce((sum, v) => sum + (v - mean) ** 2, 0) / n;
    expect(Math.abs(mean)).toBeLessThan(0.02);
    expect(Math.abs(variance - 1)).toBeLessThan(0.03);
    expect(Math.abs(values.filter((v) => Math.abs(v) > 2).length / n - 0.0455)).toBeLessThan(0.005);
  });
});

describe('a mode', () => {
  it('equals the integral of the contact over its decay, wherever between two samples it starts', () => {
    const [hz, decay60, contact] = [430, 0.3, 7e-4];
    const alpha = Math.log(1000) / decay60;
    for (const onset of [0.001, 0.001 + 0.37 / INNER_RATE, 0.001 + 0.999 / INNER_RATE]) {
      const loop = new Loop(100000);
      addMode(loop, onset, 0.8, hz, decay60, contact);
      for (const i of [100, 176, 178, 200, 260, 299, 300, 301, 420, 1500, 3000]) {
        const t = i / INNER_RATE - onset;
        // midpoint rule over the contact
        const steps = 4000;
        const end = Math.min(Math.max(t, 0), contact);
        let sum = 0;
        for (let k = 0; k < steps; k++) {
          const tau = ((k + 0.5) / steps) * end;
          const left = t - tau;
          sum += contactForce(tau, contact) * Math.exp(-alpha * left) * Math.cos(2 * Math.PI * hz * left);
        }
        expect(loop.samples[i]).toBeCloseTo((0.8 * sum * (end / steps)) / (contact / 2), 6);
      }
    }
  });

  it('comes in at the beginning of the loop with what runs past its end', () => {
    const long = new Loop(40000);
    addMode(long, 0.1, 1, 200, 0.15, 5e-4);
    const short = new Loop(20000);
    addMode(short, 0.1, 1, 200, 0.15, 5e-4);
    for (const i of [0, 500, 5000, 17000, 18000, 19999]) {
      expect(short.samples[i]).toBeCloseTo(long.samples[i] + long.samples[i + 20000], 12);
    }
    expect(Math.abs(long.samples[20000])).toBeGreaterThan(1e-3);
  });
});

describe('a push', () => {
  it('starts with its own sign at its own time, and pushes as much back as forth', () => {
    const loop = new Loop(2000);
    addPush(loop, 100.4 / INNER_RATE, 2, 2e-4);
    expect(loop.samples.slice(0, 101).every((v) => v === 0)).toBe(true);
    expect(loop.samples[101]).toBeGreaterThan(0);
    expect(Math.abs(loop.samples.reduce((sum, v) => sum + v, 0))).toBeLessThan(0.01);
  });
});

describe('a burst', () => {
  it('is silent before its onset and has its stated level at the top', () => {
    const burst = new Burst(new Random(3, 'burst'), [highPass2(1000, 0.7, INNER_RATE)], 1e-5, 1);
    const loop = new Loop(400000);
    burst.addTo(loop, 1000.5 / INNER_RATE, 0.25);
    expect(loop.samples.slice(0, 1001).every((v) => v === 0)).toBe(true);
    const top = loop.samples.slice(1100, 6100);
    const rms = Math.sqrt(top.reduce((sum, v) => sum + v * v, 0) / top.length);
    // it falls by 1.7 dB in this time, and the straight line between samples takes a little of the very top
    expect(rms).toBeGreaterThan(0.15);
    expect(rms).toBeLessThan(0.27);
  });
});

describe('the filters', () => {
  const decibels = (filters: Parameters<typeof runBiquad>[0][], hz: number) => {
    const x = Float64Array.from({ length: 1 << 16 }, (_, i) => (i === 0 ? 1 : 0));
    for (const filter of filters) runBiquad(filter, x, x, [0, 0]);
    let re = 0;
    let im = 0;
    x.forEach((v, i) => {
      re += v * Math.cos((2 * Math.PI * hz * i) / INNER_RATE);
      im -= v * Math.sin((2 * Math.PI * hz * i) / INNER_RATE);
    });
    return 10 * Math.log10(re * re + im * im);
  };

  it('have −3.01 dB at a Butterworth corner and −3.01 dB at a first-order one (definition)', () => {
    expect(decibels(butterworthLowPass(19000, 8, INNER_RATE), 19000)).toBeCloseTo(-3.0103, 3);
    expect(decibels([highPass2(80, Math.SQRT1_2, INNER_RATE)], 80)).toBeCloseTo(-3.0103, 2);
    expect(decibels([lowPass1(5000, INNER_RATE)], 5000)).toBeCloseTo(-3.0103, 3);
  });

  it('have Q at the corner of a second-order low-pass, and the bell its height', () => {
    expect(decibels([lowPass2(16000, 0.8, INNER_RATE)], 16000)).toBeCloseTo(20 * Math.log10(0.8), 3);
    expect(decibels([peak(5000, 4, 0.9, INNER_RATE)], 5000)).toBeCloseTo(4, 3);
    expect(decibels([peak(5000, 4, 0.9, INNER_RATE)], 20)).toBeCloseTo(0, 2);
  });

  it('leave no beginning in a loop: a tone of whole periods comes out as one steady tone', () => {
    const loop = new Loop(17640);
    for (let i = 0; i < 17640; i++) loop.samples[i] = Math.sin((2 * Math.PI * 50 * i) / 17640);
    loop.filter([highPass2(700, Math.SQRT1_2, INNER_RATE)]);
    const period = 17640 / 50;
    for (let i = 0; i < period; i += 7) {
      expect(loop.samples[i]).toBeCloseTo(loop.samples[Math.round(i + period * 40)], 3);
    }
  });
});

describe('a membrane', () => {
  it('has the zeros and the summits of the Bessel functions, as SciPy (tests/reference/figures.py)', () => {
    const { zeros, largest } = figures.membrane;
    expect(MODES.map(([m]) => m)).toEqual(zeros.map(({ m }) => m));
    for (const [i, [, zero]] of MODES.entries()) expect(zero).toBeCloseTo(zeros[i]?.zero as number, 3);
    for (const [m, value] of SHAPE_MAX.entries()) expect(value).toBeCloseTo(largest[m] as number, 3);
  });
});
