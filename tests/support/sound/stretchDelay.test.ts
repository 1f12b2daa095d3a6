import { describe, expect, it } from 'vitest';
import { scatterOfDelay } from '../../bench/engine/noiseDelay';
import { delayBoundSeconds } from './stretchDelay';

describe('the delay function on band-limited noise', () => {
  // Knapp & Carter, IEEE Trans. ASSP 24 (1976) 320–327; worked value: 100–4000 Hz, 100 ms, 10 dB on each channel → 1.117 µs
  it('knows the bound', () => {
    const coherence = (10 / 11) ** 2;
    expect(delayBoundSeconds(100, 4000, 0.1, coherence) * 1e6).toBeCloseTo(1.117, 3);
  });

  // fewer draws than the benchmark, so a little more room than its 1.2: RMS of 300 draws scatters by 4 %
  for (const snrDb of [10, 20, 30])
    for (const delaySamples of [0.3, 4.3, 48.3])
      it(`scatters within 1.2 × the bound at ${snrDb} dB for ${delaySamples} samples, without bias`, () => {
        const row = scatterOfDelay(snrDb, delaySamples, 300, 20261);
        expect(row.ratio).toBeLessThan(1.2);
        expect(row.ratio).toBeGreaterThan(0.8);
        expect(Math.abs(row.biasMicroseconds)).toBeLessThan((4 * row.boundMicroseconds) / Math.sqrt(300));
      });
});
