/** The levels that a take is judged by. */
import { describe, expect, test } from 'vitest';
import { BANDS, LevelScan, levelDb } from '../../src/take/scan/levelScan';
import { seeded } from '../support/sound/signals';

const RATE = 48_000;
const sine = (hz: number, gain: number, seconds = 1): Float32Array =>
  Float32Array.from({ length: seconds * RATE }, (_, i) => gain * Math.sin((2 * Math.PI * hz * i) / RATE));

function scanned(x: Float32Array, sliceFrames = x.length): ReturnType<LevelScan['end']> {
  const scan = new LevelScan(RATE);
  for (let i = 0; i < x.length; i += sliceFrames) scan.push(x.subarray(i, i + sliceFrames));
  return scan.end();
}

describe('levels', () => {
  test.for([
    [60, 0],
    [280, 1],
    [1000, 2],
    [3500, 3],
    [10_000, 4],
  ] as const)('a sine of %i Hz is in band %i, at its mean square', ([hz, band]) => {
    const { bands } = scanned(sine(hz, 0.1));
    const levels = Array.from({ length: BANDS }, (_, b) => {
      // whole periods, so that a low tone's own swing evens out
      const part = (bands[b] as Uint8Array).slice(400, 900);
      return 10 * Math.log10(part.reduce((sum, kept) => sum + 10 ** (levelDb(kept) / 10), 0) / part.length);
    });
    // a sine's mean square is half its peak's: −23 dB; a Butterworth takes less than 1 dB off in the middle of its band
    expect(levels[band]).toBeGreaterThan(-24.5);
    expect(levels[band]).toBeLessThan(-22.5);
    for (let b = 0; b < BANDS; b++) if (b !== band) expect(levels[b]).toBeLessThan((levels[band] as number) - 6);
  });

  test('the same whatever the slices are', () => {
    const random = seeded(3);
    const noise = Float32Array.from({ length: 20_000 }, () => random() - 0.5);
    const whole = scanned(noise);
    const sliced = scanned(noise, 777);
    expect(sliced.hops).toBe(whole.hops);
    expect(whole.hops).toBe(Math.floor(20_000 / 48));
    expect(sliced.bands.map((band) => [...band])).toEqual(whole.bands.map((band) => [...band]));
  });

  test('full scale, and what is no sound', () => {
    const x = sine(100, 0.5);
    x.set([1, 1, 1, 1], 1000);
    x.set([-1, -1], 2000);
    x.set([Number.NaN, Number.POSITIVE_INFINITY, 5000], 3000);
    const { clips, unsound, peak } = scanned(x);
    expect(clips).toBe(1);
    expect(unsound).toBe(3);
    expect(peak).toBe(1);
  });
});
