import { describe, expect, it } from 'vitest';
import { Engine } from '../../../src/dsp/engine';
import { BandGauge } from '../../../src/dsp/input/bandGauge';
import { LateMeters } from '../../../src/dsp/input/lateMeters';
import { Trace } from '../../../src/dsp/input/trace';
import { INPUT } from '../../../src/dsp/tuning/inputTuning';
import { BAND_COUNT } from '../../../src/reading/bands';
import { seeded } from '../../support/sound/signals';
import { pairOfHits } from '../../support/sound/simpleKit';

const RATE = 48_000;
const STEP = 128;

const traceOf = (trace: Trace): number[] => {
  const out = new Float64Array(1 + BAND_COUNT);
  trace.write(out, 0, 1, 1);
  return [...out];
};
const bandsOf = ({ a, b, product, floorA, floorB, windows, longestZero }: BandGauge): number[] => [
  ...a,
  ...b,
  ...product,
  ...floorA,
  ...floorB,
  windows,
  longestZero,
];

describe('what only a frame shows of the inputs', () => {
  it('is, once it has caught up, bit for bit as if it had been worked out step by step', () => {
    const random = seeded(11);
    const late = new LateMeters(RATE, STEP, INPUT);
    const bands = new BandGauge(RATE, STEP);
    const trace = new Trace(RATE, STEP);
    let shown = 0;
    for (let step = 0; step < 500; step++) {
      const { rawA, rawB, a, b } = late.step;
      const level = step % 200 < 100 ? 1e-4 : 0.3;
      for (const x of [rawA, rawB, a, b]) for (let i = 0; i < STEP; i++) x[i] = level * (random() - 0.5);
      const n = step === 200 ? 50 : STEP;
      bands.run(rawA, rawB, n);
      trace.run(a, b, n);
      late.next(n);
      if (step % 17 > 4 || step % 17 === 2) continue;
      late.catchUp();
      expect(traceOf(late.trace)).toEqual(traceOf(trace));
      if (!Number.isNaN(traceOf(trace)[0])) shown++;
      expect(bandsOf(late.bands)).toEqual(bandsOf(bands));
    }
    expect(shown).toBeGreaterThan(5);
    expect(bands.windows).toBeGreaterThan(3);
  });

  it('leaves a step that has only begun as it is', () => {
    const late = new LateMeters(RATE, STEP, INPUT);
    late.next(STEP);
    late.step.rawA[5] = 0.25;
    const { step } = late;
    late.catchUp();
    expect(late.step).toBe(step);
    expect(late.step.rawA[5]).toBe(0.25);
  });

  it('changes no frame by how often frames are written, nor by the blocks’ length', () => {
    const { a, b } = pairOfHits({ noise: 2e-4, hits: 2 });
    const last = (block: number, every: number): number[] => {
      const engine = new Engine(RATE);
      const frame = new Float64Array(engine.frameLength);
      for (let i = 0, k = 0; i < a.length; i += block, k++) {
        engine.push(a.subarray(i, i + block), b.subarray(i, i + block));
        if (k % every === 0) engine.writeFrame(frame);
      }
      engine.writeFrame(frame);
      return [...frame];
    };
    const often = last(STEP, 2);
    expect(last(STEP, 1e9)).toEqual(often);
    expect(last(50, 3)).toEqual(often);
  });
});
