/** The engine's spectra and correlations against SciPy's (tests/reference/correlation.py wrote the values), and the traps. */
import { describe, expect, it } from 'vitest';
import { Pool } from '../../src/dsp/delay/pool';
import { HitSpectra } from '../../src/dsp/hit/hitSpectra';
import { HitStore } from '../../src/dsp/hit/hitStore';
import { LAG_BANDS, type SumLags } from '../../src/dsp/hit/sumLags';
import { Trace } from '../../src/dsp/input/trace';
import { Gcc, parabolicOffset } from '../../src/dsp/signal/gcc';
import { Ring } from '../../src/dsp/signal/ring';
import { biasLimit, unbiased } from '../../src/dsp/sum/coherenceBias';
import { DrumSum } from '../../src/dsp/sum/drumSum';
import { HIT } from '../../src/dsp/tuning/hitTuning';
import { BAND_COUNT, BANDS, SPECTRUM_POINTS } from '../../src/reading/bands';
import reference from '../reference/correlation.json';
import { gccPair, noise, runningPair, sumPair, tones, uint32 } from '../reference/noise';
import { StretchDelay } from '../support/sound/stretchDelay';

const RATE = 48000;

/** |x − expected| within `share` of |expected|. */
function near(x: number, expected: number, share: number): void {
  expect(Math.abs(x - expected)).toBeLessThanOrEqual(share * Math.abs(expected));
}

describe('the inputs', () => {
  it('are the same as in the script', () => {
    expect([...uint32(31, 4)]).toEqual(reference.first);
    expect(uint32(31, 5000).reduce((sum, x) => (sum + x) % 2 ** 32, 0)).toBe(reference.checksum);
  });
});

describe('generalized cross-correlation', () => {
  const { length, size, maxLagSamples, cases } = reference.gcc;
  const [a, b] = gccPair(length);

  it.each(cases)('whitened by $beta, $lowHz–$highHz Hz, is that of $how', ({ beta, lowHz, highHz, curve }) => {
    const gcc = new Gcc(RATE, size, { beta, lowHz, highHz, maxLagSamples });
    gcc.frameA.set(a);
    gcc.frameB.set(b);
    gcc.forward();
    gcc.correlate();
    expect(gcc.curve).toHaveLength(curve.length);
    for (const [i, expected] of curve.entries()) expect(Math.abs(gcc.curve[i] - expected)).toBeLessThan(1e-8);
    // the pair itself: inverted, 13 samples late
    const peak = gcc.curve.reduce((best, x, i) => (Math.abs(x) > Math.abs(gcc.curve[best]) ? i : best), 0);
    expect(peak - maxLagSamples).toBe(13);
    expect(gcc.curve[peak]).toBeLessThan(-0.5);
  });
});

describe('a fractional delay', () => {
  // SciPy: correlate, then resample by 64 (steps of 0.016 sample); ours must come nearer to the truth
  it.each(reference.fractional)('of $delaySamples samples is found as by SciPy, and to 0.003', (row) => {
    const { delaySamples, scipySamples } = row;
    const count = 4800;
    const options = { sampleRate: RATE, lowHz: 80, highHz: 5000, beta: 0, maxLagSamples: 128 };
    const found = new StretchDelay(count, options).estimate(tones(0, count, 0.5), tones(delaySamples, count, 0.5), 0);
    expect(found.sign).toBe(1);
    expect(Math.abs(found.delaySamples - scipySamples)).toBeLessThanOrEqual(0.5 / 64 + 0.003);
    expect(Math.abs(found.delaySamples - delaySamples)).toBeLessThanOrEqual(0.003);
  });

  // L. Svilainis et al., Measurement 46 (2013) 3950–3958: bias of a parabola through three points
  it.each([
    [1, 0.119],
    [2, 0.025],
    [4, 0.006],
  ])('by a parabola through three points, band 1/%d of the full one, is biased by up to %d sample', (share, bias) => {
    const sinc = (x: number): number => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
    let worst = 0;
    for (let true0 = -0.5; true0 <= 0.5; true0 += 0.005) {
      const at = (lag: number): number => sinc((lag - true0) / share);
      worst = Math.max(worst, Math.abs(parabolicOffset(at(-1), at(0), at(1)) - true0));
    }
    expect(Math.abs(worst - bias)).toBeLessThanOrEqual(0.0015);
  });
});

/** 16 stretches of 5040 samples through the analyser, as if each were a hit of one drum. */
interface Stretches {
  store: HitStore;
  sums: DrumSum;
  lags: SumLags;
}

function stretches(a: Float64Array, b: Float64Array): Stretches {
  const [length, before, count] = [5040, 240, 16];
  // the last stretch ends with the stream: 0 beyond it
  const rings = { rawA: new Ring(a.length + 1), rawB: new Ring(b.length + 1) };
  rings.rawA.push(a, a.length);
  rings.rawB.push(b, b.length);
  // a stretch of 105 ms: what the stored values were made with
  const analyser = new HitSpectra(RATE, { ...HIT.spectra, afterSeconds: 0.1 }, 64);
  const store = new HitStore();
  const pool = new Pool(RATE);
  for (let k = 0; k < count; k++) {
    const s = store.add(k * length + before);
    for (let piece = ''; piece !== 'done'; ) piece = analyser.work(rings, a.length + 1, k * length + before, store, s);
    store.hasSum[s] = 1;
    pool.drumSlots[k] = s;
  }
  pool.drumHits = count;
  const sums = new DrumSum();
  sums.evaluate(store, pool);
  return { store, sums, lags: analyser.lags };
}

const stored = (name: string): Stretches => stretches(...sumPair(name, 16 * 5040));

const total = (x: Float64Array, from: number, step: number): number => {
  let sum = 0;
  for (let i = from; i < 16 * step; i += step) sum += x[i];
  return sum;
};

describe.each(reference.sums)('power and cross spectra: $name', (expected) => {
  const { store, sums, lags } = stored(expected.name);

  it('in the fixed bands are those of signal.csd', () => {
    for (const [b, row] of expected.bands.entries()) {
      near(total(store.bandA, b, BAND_COUNT), row.powerA, 1e-9);
      near(total(store.bandB, b, BAND_COUNT), row.powerB, 1e-9);
      near(total(store.bandProduct, b, BAND_COUNT), row.cross, 1e-8);
    }
  });

  it('on the grid are those of signal.csd, B late turning the angle down', () => {
    for (const row of expected.grid) {
      near(total(store.gridA, row.point, SPECTRUM_POINTS), row.powerA, 1e-9);
      near(total(store.gridB, row.point, SPECTRUM_POINTS), row.powerB, 1e-9);
      near(total(store.gridRe, row.point, SPECTRUM_POINTS), row.crossRe, 1e-7);
      near(total(store.gridIm, row.point, SPECTRUM_POINTS), row.crossIm, 1e-7);
    }
  });

  it('give the coherency wherever it is carried', () => {
    for (const { point, re, im } of expected.grid) {
      if (Number.isNaN(sums.re[point])) {
        expect(re * re + im * im).toBeLessThan(0.3);
        continue;
      }
      expect(Math.abs(sums.re[point] - re)).toBeLessThan(1e-9);
      expect(Math.abs(sums.im[point] - im)).toBeLessThan(1e-9);
    }
  });

  it('give the zero-lag correlation (bands by FFT masking, multiplied out in time)', () => {
    expect(Math.abs(sums.correlation - expected.correlation)).toBeLessThan(1e-9);
    for (const [b, row] of expected.bands.entries()) {
      const r = sums.bands[b * 6];
      if (!Number.isNaN(r)) expect(Math.abs(r - row.correlation)).toBeLessThan(1e-9);
    }
  });

  it('give what the two have in common at each lag (bands by FFT masking, shifted and multiplied out in time)', () => {
    expect(expected.lags.length).toBe(LAG_BANDS);
    const out = new Float64Array(1);
    for (const [band, row] of expected.lags.entries()) {
      let powerA = 0;
      let powerB = 0;
      for (let s = 0; s < 16; s++) {
        powerA += lags.powerA[s * LAG_BANDS + band];
        powerB += lags.powerB[s * LAG_BANDS + band];
      }
      for (const [i, lag] of row.at.entries()) {
        lags.addUp(
          band,
          Int32Array.from({ length: 16 }, (_, s) => s),
          16,
          lag,
          1,
          out,
          1,
        );
        const r = out[0];
        // curves are kept as 32-bit floats, the low bands at every eighth lag: 0.003 dB at most where the sum is at all
        expect(Math.abs(r / Math.sqrt(powerA * powerB) - row.correlation[i])).toBeLessThan(5e-4);
      }
    }
  });
});

describe('what correlation and coherence must come to', () => {
  // equal SNR S on both channels: r = S/(1+S), γ² = r²; 10 dB: 0.909 / 0.826 (follows)
  it('10 dB over noise in both channels: r 0.909, coherence 0.826', () => {
    const { sums } = stored('snr10');
    expect(Math.abs(sums.correlation - 0.909)).toBeLessThanOrEqual(0.01);
    // the two upper bands hold enough independent bins for ±0.01
    for (const b of [2, 3]) {
      expect(Math.abs(sums.bands[b * 6] - 0.909)).toBeLessThanOrEqual(0.01);
      expect(Math.abs(sums.bands[b * 6 + 1] - 0.826)).toBeLessThanOrEqual(0.01);
    }
  });

  // follows
  it.each([
    [0, 1],
    [30, 0.8660254],
    [60, 0.5],
    [90, 0],
    [120, -0.5],
    [180, -1],
  ])('two sines %d° apart: r = cos φ = %d', (degrees, r) => {
    const sine = (lag: number, length: number, period: number): Float64Array =>
      Float64Array.from({ length }, (_, i) => Math.sin((2 * Math.PI * i) / period - (lag * Math.PI) / 180));
    // over whole periods, to 1e-6
    const gcc = new Gcc(RATE, 4096, { beta: 0, lowHz: 0, highHz: RATE / 2, maxLagSamples: 8 });
    gcc.frameA.set(sine(0, 4096, 64));
    gcc.frameB.set(sine(degrees, 4096, 64));
    gcc.forward();
    gcc.correlate();
    expect(Math.abs(gcc.curve[8] - r)).toBeLessThanOrEqual(1e-6);
    // over a hit's stretch, which fades in and out: the fades leak
    const { sums } = stretches(sine(0, 16 * 5040, 48), sine(degrees, 16 * 5040, 48));
    expect(Math.abs(sums.correlation - r)).toBeLessThanOrEqual(1e-5);
  });

  it('a delay of 5 samples, inverted, 20 dB over noise: γ = −C·exp(−j2πf·5/48000)', () => {
    const { sums } = stored('late');
    // SNR 1/0.01 in power on both sides: |γ| = 1/1.01
    const coherence = 1 / 1.01 ** 2;
    for (let p = 60; p < 221; p++) {
      const f = 20 * 1000 ** (p / 240);
      const angle = (2 * Math.PI * f * 5) / RATE;
      // an estimate from n segments scatters by √((1−C)/(2nC)) (after Bendat & Piersol, Random Data; looked for, not seen): 4 of those, and what the
      // turn within one cell of the grid, a twelfth of an octave, takes away
      const width = Math.max(0.0578 * f, 1 / 0.105);
      const scatter = Math.sqrt((1 - coherence) / (2 * 16 * Math.max(1, width * 0.105) * coherence));
      const turn = (Math.PI * width * 5) / RATE;
      const tolerance = 4 * scatter + 1 - Math.sin(turn) / turn;
      expect(Math.abs(sums.re[p] + Math.cos(angle) / 1.01)).toBeLessThan(tolerance);
      expect(Math.abs(sums.im[p] - Math.sin(angle) / 1.01)).toBeLessThan(tolerance);
    }
  });

  it('unrelated inputs: nothing is carried, save by chance', () => {
    const { sums } = stored('unrelated');
    expect(Math.abs(sums.correlation)).toBeLessThan(0.01);
    for (let b = 0; b < BAND_COUNT; b++) expect(sums.bands[b * 6]).toBeNaN();
    expect(sums.fuller).toBeNaN();
    // the limit is one that unrelated inputs exceed in 1 % of the cases
    const shown = sums.re.reduce((n, x) => n + (Number.isNaN(x) ? 0 : 1), 0);
    expect(shown).toBeLessThanOrEqual(0.03 * SPECTRUM_POINTS);
  });
});

/** Coherence per bin over `segments` rectangular segments, from the GCC's own spectra. */
function binCoherence(a: Float64Array, b: Float64Array, size: number, segments: number): number[] {
  const gcc = new Gcc(RATE, size, { beta: 0, lowHz: 0, highHz: RATE / 2, maxLagSamples: 8 });
  const sums = Array.from({ length: size / 2 + 1 }, () => [0, 0, 0, 0]);
  for (let s = 0; s < segments; s++) {
    gcc.frameA.set(a.subarray(s * size, (s + 1) * size));
    gcc.frameB.set(b.subarray(s * size, (s + 1) * size));
    gcc.forward();
    for (const [k, sum] of sums.entries()) {
      const [ar, ai, br, bi] = [gcc.aRe[k], gcc.aIm[k], gcc.bRe[k], gcc.bIm[k]];
      sum[0] += ar * ar + ai * ai;
      sum[1] += br * br + bi * bi;
      sum[2] += ar * br + ai * bi;
      sum[3] += ar * bi - ai * br;
    }
  }
  return sums.slice(1, -1).map(([aa, bb, re, im]) => (re * re + im * im) / (aa * bb));
}

describe('coherence traps', () => {
  const { size, single, unrelated16, unrelatedSize, unrelatedOver, quarterLate } = reference.traps;
  const mean = (x: number[]): number => x.reduce((sum, v) => sum + v, 0) / x.length;
  const a = noise(41, size * 400 + 64);
  const b = noise(42, size * 400);

  it('from a single segment it is exactly 1, which is no evidence', () => {
    for (const c of binCoherence(a, b, size, 1)) expect(Math.abs(c - 1)).toBeLessThan(1e-9);
    expect(single).toBe(1);
    expect(unbiased(1, 1)).toBe(0);
    expect(biasLimit(1, 1)).toBe(1);
  });

  // n independent segments of unrelated signals average 1/n: SciPy on the same noise, and its Beta(1, n − 1) in figures.test.ts
  it('of 16 unrelated segments averages 1/16 = 0.0625, and passes the 1 % limit in 1 % of the bins', () => {
    const c = binCoherence(a, b, unrelatedSize, 16);
    near(mean(c), unrelated16, 1e-9);
    expect(Math.abs(mean(c) - 0.0625)).toBeLessThanOrEqual(0.005);
    const over = mean(c.map((x) => (x > biasLimit(16, 1) ? 1 : 0)));
    expect(over).toBeCloseTo(unrelatedOver, 9);
    expect(Math.abs(over - 0.01)).toBeLessThanOrEqual(0.005);
    // without its bias, before what lies below 0 is cut off, the mean is 0
    expect(Math.abs((mean(c) - 1 / 16) / (1 - 1 / 16))).toBeLessThanOrEqual(0.005);
    expect(unbiased(1 / 16, 16)).toBe(0);
    expect(unbiased(1, 16)).toBe(1);
  });

  // a rectangular window of length T keeps 1 − |τ|/T of what is common: γ² = (1 − 1/4)²; SciPy on the same noise beside it
  it('of a delay of T/4 in a rectangular window is 0.5625', () => {
    const late = a.slice(0, size * 400);
    const c = mean(binCoherence(a.subarray(64), late, size, 400));
    near(c, quarterLate, 1e-9);
    expect(Math.abs(c - 0.5625)).toBeLessThanOrEqual(0.01);
  });
});

describe('a maximum-length sequence of 1023', () => {
  const { bits, peak, elsewhere } = reference.mls;
  /** Circular correlation with a copy `sign` times it, lags −500…+500, from one period against three. */
  function circular(sign: number): Float64Array {
    const x = Array.from(bits, (bit) => (bit === '1' ? 1 : -1));
    const gcc = new Gcc(RATE, 4096, { beta: 0, lowHz: 0, highHz: RATE / 2, maxLagSamples: 1523 });
    for (let i = 0; i < 1023; i++) gcc.frameA[i] = x[i];
    for (let i = 0; i < 3 * 1023; i++) gcc.frameB[i] = sign * x[i % 1023];
    gcc.forward();
    gcc.correlate();
    // back from the normalised curve, and with 0 Hz and Nyquist, which the curve leaves out
    let norm = 0;
    for (let k = 1; k < 2048; k++) {
      norm += (2 / 4096) * Math.hypot(gcc.aRe[k], gcc.aIm[k]) * Math.hypot(gcc.bRe[k], gcc.bIm[k]);
    }
    const direct = (gcc.aRe[0] * gcc.bRe[0]) / 4096;
    const nyquist = (gcc.aRe[2048] * gcc.bRe[2048]) / 4096;
    return Float64Array.from({ length: 1001 }, (_, i) => {
      const lag = 1023 - 500 + i;
      return gcc.curve[1523 + lag] * norm + direct + (lag % 2 === 0 ? nyquist : -nyquist);
    });
  }

  // exact; SciPy: signal.max_len_seq
  it.each([1, -1])('correlates with itself times %d: 1023 at 0, −1 elsewhere, by sign', (sign) => {
    expect([peak, ...elsewhere]).toEqual([1023, -1]);
    for (const [i, x] of circular(sign).entries()) {
      expect(Math.abs(x - sign * (i === 500 ? 1023 : -1))).toBeLessThan(1e-8);
    }
  });
});

describe('the running correlation', () => {
  /** broadband, then BANDS */
  const valuesOf = (trace: Trace): number[] => {
    const out = new Float64Array(1 + BANDS.length);
    trace.write(out, 0, 1, 1);
    return [...out];
  };

  const { at, bands } = reference.running;

  it('is that of Butterworth filters and exponential means by SciPy', () => {
    const [a, b] = runningPair();
    const trace = new Trace(RATE, 1);
    const seen: number[][] = bands.map(() => []);
    for (let i = 0; i < a.length; i++) {
      trace.run(a.subarray(i, i + 1), b.subarray(i, i + 1), 1);
      if (!at.includes(i)) continue;
      for (const [k, value] of valuesOf(trace).entries()) seen[k].push(value);
    }
    for (const [k, { values }] of bands.entries()) {
      for (const [j, expected] of values.entries()) expect(Math.abs(seen[k][j] - expected)).toBeLessThan(1e-7);
    }
  });

  it('of unrelated noise does scatter so: by no more than 0.1 + sampling error in the low band', () => {
    const rate = 8000;
    const runs = 60;
    const trace = new Trace(rate, 1);
    let square = 0;
    for (let run = 0; run < runs; run++) {
      const a = noise(1000 + run, 2 * rate);
      const b = noise(5000 + run, 2 * rate);
      trace.clear();
      for (let i = 0; i < a.length; i++) {
        const level = i < rate / 2 ? 1e-4 : 0.1;
        trace.run(Float64Array.of(level * a[i]), Float64Array.of(level * b[i]), 1);
      }
      square += valuesOf(trace)[1] ** 2 / runs;
    }
    // 60 draws: the standard deviation itself is known to ±9 %; the filters' skirts make the band wider than its name
    expect(Math.sqrt(square)).toBeGreaterThan(0.06);
    expect(Math.sqrt(square)).toBeLessThan(0.12);
  });
});
