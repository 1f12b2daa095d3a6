import { describe, expect, it } from 'vitest';
import { BandPair } from '../../../src/dsp/signal/bandPair';
import { Biquad } from '../../../src/dsp/signal/filters';
import { seeded } from '../../support/sound/signals';

const RATE = 48_000;
const N = 128;

describe('two channels through one band', () => {
  it('are bit for bit what a high-pass and a low-pass make of each alone, block after block', () => {
    const random = seeded(3);
    const pair = new BandPair(RATE, 177, 354);
    const alone = [0, 1].map(() => [new Biquad('highpass', RATE, 177), new Biquad('lowpass', RATE, 354)]);
    const inA = new Float64Array(N);
    const inB = new Float64Array(N);
    for (let block = 0; block < 40; block++) {
      // the last ones are silent: memories that are next to nothing are forgotten at the same moment
      const channels = [0.5, 1e-9].map((level) =>
        Float64Array.from({ length: N }, () => (block < 20 ? level * (random() - 0.5) : 0)),
      );
      const n = block % 3 === 0 ? 100 : N;
      pair.run(channels[0] as Float64Array, channels[1] as Float64Array, inA, inB, n);
      for (const [c, out] of [inA, inB].entries()) {
        const y = new Float64Array(N);
        const [high, low] = alone[c] as Biquad[];
        high?.run(channels[c] as Float64Array, y, n);
        low?.run(y, y, n);
        expect([...out.subarray(0, n)]).toEqual([...y.subarray(0, n)]);
      }
    }
  });

  it('hold nothing once cleared', () => {
    const pair = new BandPair(RATE, 177, 354);
    const x = new Float64Array(N).fill(1);
    const out = new Float64Array(N);
    pair.run(x, x, out, new Float64Array(N), N);
    const first = [...out];
    pair.clear();
    pair.run(x, x, out, new Float64Array(N), N);
    expect([...out]).toEqual(first);
  });
});
