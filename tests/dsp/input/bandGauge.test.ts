import { describe, expect, it } from 'vitest';
import { BandGauge } from '../../../src/dsp/input/bandGauge';
import { INPUT_BAND_COUNT, inputBandHz } from '../../../src/reading/bands';
import { seeded } from '../../support/sound/signals';

const RATE = 48_000;
const STEP = 128;

function run(gauge: BandGauge, seconds: number, at: (i: number) => [number, number]): void {
  const a = new Float64Array(STEP);
  const b = new Float64Array(STEP);
  for (let i = 0; i < seconds * RATE; i += STEP) {
    for (let k = 0; k < STEP; k++) [a[k], b[k]] = at(i + k);
    gauge.run(a, b, STEP);
  }
}
const sine = (hz: number, level: number) => (i: number) => level * Math.sin((2 * Math.PI * hz * i) / RATE);

describe('the gauge of the inputs’ noise', () => {
  it('gives a tone’s mean square in the octave that it is the middle of, and 12 dB less or lower in the next but one', () => {
    for (let band = 0; band < INPUT_BAND_COUNT; band++) {
      const gauge = new BandGauge(RATE, STEP);
      const { lowHz, highHz } = inputBandHz(band);
      const tone = sine(Math.sqrt(lowHz * highHz), 0.5);
      run(gauge, 1, (i) => [tone(i), -0.5 * tone(i)]);
      const at = (k: number): number => 10 * Math.log10(gauge.a[k] as number);
      // two second-order slopes half an octave away take 0.26 dB each: 10·log10(1 + 2⁻²)/… measured against 0.125
      expect(at(band)).toBeGreaterThan(10 * Math.log10(0.125) - 2.2);
      expect(at(band)).toBeLessThan(10 * Math.log10(0.125) + 0.1);
      for (let k = 0; k < INPUT_BAND_COUNT; k++) if (Math.abs(k - band) > 1) expect(at(k)).toBeLessThan(at(band) - 12);
      expect((gauge.b[band] as number) / (gauge.a[band] as number)).toBeCloseTo(0.25, 3);
      expect((gauge.product[band] as number) / (gauge.a[band] as number)).toBeCloseTo(-0.5, 3);
    }
  });

  it('takes the quietest 32 ms for the noise: a hit in every window leaves it', () => {
    const random = seeded(1);
    const noise = (): number => (random() - 0.5) * 1e-3;
    const quiet = new BandGauge(RATE, STEP);
    run(quiet, 2, () => [noise(), noise()]);
    const played = new BandGauge(RATE, STEP);
    run(played, 2, (i) => {
      const hit = 0.5 * Math.exp(-(i % 9600) / 480) * (random() - 0.5);
      return [noise() + hit, noise() + hit];
    });
    for (let k = 0; k < INPUT_BAND_COUNT; k++) {
      const rise = 10 * Math.log10((played.floorA[k] as number) / (quiet.floorA[k] as number));
      expect(Math.abs(rise)).toBeLessThan(5);
      expect((played.a[k] as number) / (played.floorA[k] as number)).toBeGreaterThan(100);
    }
  });

  it('tells how long both were exactly zero, also across two windows, and counts windows of 0.26 s', () => {
    const gauge = new BandGauge(RATE, STEP);
    run(gauge, 1.02, (i) => (i > 24_000 && i < 40_000 ? [0, 0] : [0.1, 0]));
    expect(gauge.windows).toBe(3);
    expect(gauge.longestZero).toBeGreaterThan(10_000);
  });

  it('begins a window anew when told', () => {
    const gauge = new BandGauge(RATE, STEP);
    run(gauge, 0.2, () => [0.5, 0.5]);
    gauge.clear();
    run(gauge, 0.2, () => [0, 0]);
    expect(gauge.windows).toBe(0);
  });
});
