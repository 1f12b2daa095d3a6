/** Single figures that the engine leans on against SciPy's and NumPy's (tests/reference/figures.py wrote the values). */
import { describe, expect, it } from 'vitest';
import { integrationSeconds, scatterOfUnrelated } from '../../src/dsp/input/trace';
import { Biquad } from '../../src/dsp/signal/filters';
import { biasLimit, unbiased } from '../../src/dsp/sum/coherenceBias';
import { BANDS } from '../../src/reading/bands';
import figures from '../reference/figures.json';
import { delayBoundSeconds } from '../support/sound/stretchDelay';

describe('second-order Butterworth sections', () => {
  it.each(figures.butterworth)('$kind, $cornerHz Hz at $sampleRate Hz, is scipy.signal.butter’s', (row) => {
    const section = new Biquad(row.kind as 'lowpass' | 'highpass', row.sampleRate, row.cornerHz);
    const { b0, b1, b2, a1, a2 } = section;
    for (const [i, x] of [b0, b1, b2].entries()) expect(x).toBeCloseTo(row.b[i] as number, 12);
    for (const [i, x] of [1, a1, a2].entries()) expect(x).toBeCloseTo(row.a[i] as number, 12);
  });
});

describe('the correlation of unrelated inputs', () => {
  // from 416 stretches on: the count itself is good to 4 %
  it.each(figures.unrelatedScatter)('$lowHz–$highHz Hz over $seconds s scatters as counted on noise', (row) => {
    const ratio = scatterOfUnrelated(row.lowHz, row.highHz, row.seconds) / row.deviation;
    expect(Math.abs(ratio - 1)).toBeLessThan(0.05);
  });

  it('is integrated so long that it scatters by no more than 0.1', () => {
    const [low] = figures.unrelatedScatter;
    // 1/√(2BT) with B = 120 Hz (arithmetic check)
    expect(integrationSeconds(30, 150)).toBeCloseTo(0.4167, 4);
    expect(scatterOfUnrelated(30, 150, integrationSeconds(30, 150))).toBeCloseTo(0.1, 9);
    expect(low?.seconds).toBe(0.42);
    expect(low?.deviation).toBeLessThanOrEqual(0.1);
    for (const { lowHz, highHz } of BANDS) {
      expect(scatterOfUnrelated(lowHz, highHz, integrationSeconds(lowHz, highHz))).toBeLessThanOrEqual(0.1 + 1e-9);
    }
  });
});

describe('the coherence of unrelated inputs', () => {
  it.each(figures.coherenceOfUnrelated)(
    'over $segments segments: its mean is no coherence, 1 % passes the limit',
    (row) => {
      expect(unbiased(row.mean, row.segments)).toBeCloseTo(0, 12);
      expect(biasLimit(row.segments, 1, 0.01)).toBeCloseTo(row.exceededBy1PerCent, 9);
    },
  );
});

describe('the bound on a delay', () => {
  it.each(figures.delayBound)('$lowHz–$highHz Hz, $seconds s, coherence $coherence: as integrated', (row) => {
    const bound = delayBoundSeconds(row.lowHz, row.highHz, row.seconds, row.coherence);
    expect(bound / row.deviationSeconds).toBeCloseTo(1, 9);
  });
});
