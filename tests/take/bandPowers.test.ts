/** The bands of a track all in one go, against its sections one after the other. */
import { expect, test } from 'vitest';
import { Biquad } from '../../src/dsp/signal/filters';
import { BandPowers, POWER_BANDS } from '../../src/take/scan/bandPowers';
import { BAND_EDGES_HZ } from '../../src/take/scan/levelScan';
import { numbers } from '../files/tracks/trackBytes';

test('each band comes out to the bit as its own filters give it, run after run', () => {
  const [rate, hopFrames, hops] = [48_000, 48, 20];
  const some = numbers(99);
  const powers = new BandPowers(rate, BAND_EDGES_HZ, hops * hopFrames);
  const bands = Array.from({ length: POWER_BANDS }, (_, b) => {
    const [from, to] = [BAND_EDGES_HZ[b - 1], BAND_EDGES_HZ[b]];
    return [
      ...(from === undefined ? [] : [new Biquad('highpass', rate, from)]),
      ...(to === undefined ? [] : [new Biquad('lowpass', rate, to)]),
    ];
  });
  for (const gain of [1, 1e-3, 0, 1e-12]) {
    const x = Float64Array.from({ length: hops * hopFrames }, () => gain * (some(65_536) / 32_768 - 1));
    const sums = new Float64Array(hops * POWER_BANDS);
    powers.run(x, hops, hopFrames, sums);
    bands.forEach((filters, b) => {
      const y = x.slice();
      for (const filter of filters) filter.run(y, y, y.length);
      for (let h = 0; h < hops; h++) {
        let sum = 0;
        for (const v of y.subarray(h * hopFrames, (h + 1) * hopFrames)) sum += v * v;
        expect(sums[h * POWER_BANDS + b]).toBe(sum);
      }
    });
  }
});
