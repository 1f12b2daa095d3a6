import { describe, expect, it } from 'vitest';
import { Engine } from '../../../src/dsp/engine';
import { HighPass1 } from '../../../src/dsp/signal/filters';
import {
  CLOSE_COLUMNS,
  PICTURE_COLUMNS,
  PICTURES_LENGTH,
  type Pictures,
  type PictureWish,
  picturesFrom,
} from '../../../src/reading/hitPictures';
import { HITS_KEPT } from '../../../src/reading/limits';
import { flat } from '../../support/readings/flat';
import { pairOfHits } from '../../support/sound/simpleKit';

const RATE = 48000;
const WISH: PictureWish = {
  alignSamples: null,
  fromMs: -3,
  lengthMs: 12,
  closeSerial: 0,
  closeFromMs: -1,
  closeLengthMs: 2,
};

function struck(options: Parameters<typeof pairOfHits>[0] = {}): Engine {
  const engine = new Engine(RATE);
  const { a, b } = pairOfHits({ sampleRate: RATE, ...options });
  engine.push(a, b);
  engine.flush();
  return engine;
}

function pictures(engine: Engine, wish: Partial<PictureWish> = {}): Pictures {
  const out = new Float32Array(PICTURES_LENGTH).fill(99);
  engine.writePictures(out, { ...WISH, ...wish });
  return picturesFrom(out);
}

describe('pictures of the hits', () => {
  it('show the newest first, with where the first pushes begin and which way they go', () => {
    const engine = struck({ hits: 6, delaySamples: 12.4, sign: -1 });
    const { hits } = pictures(engine);
    expect(hits.map((hit) => hit.serial)).toEqual([6, 5, 4, 3, 2, 1]);
    for (const { a, b, only } of hits) {
      // A is earlier: the window begins 3 of its 12 ms before A's arrival
      expect(a.arrival).toBeCloseTo(0.25, 6);
      expect((((b.arrival as number) - (a.arrival as number)) * 12 * RATE) / 1000).toBeCloseTo(12.4, 0);
      expect(a.push * b.push).toBe(-1);
      expect([a.clipped, b.clipped, a.noiseBound, b.noiseBound, only]).toEqual([false, false, false, false, null]);
      expect(Math.min(a.quality, b.quality)).toBeGreaterThan(8);
      expect(a.columns.length).toBe(2 * PICTURE_COLUMNS);
    }
  });

  it('aligned, B’s first push stands where A’s does', () => {
    const engine = struck({ delaySamples: 100.3 });
    const { delaySamples } = flat(engine.reading());
    expect(delaySamples).toBeCloseTo(100.3, 0);
    const aligned = pictures(engine, { alignSamples: delaySamples });
    const asRecorded = pictures(engine);
    const samples = (12 * RATE) / 1000;
    for (const [i, hit] of aligned.hits.entries()) {
      expect(Math.abs((hit.b.arrival as number) - 0.25) * samples).toBeLessThan(1);
      // before the push the line is flat, right after it isn't: the curve was shifted and not only the mark
      const reach = (c: number): number =>
        Math.max(Math.abs(hit.b.columns[2 * c] as number), Math.abs(hit.b.columns[2 * c + 1] as number));
      expect(reach(22)).toBeLessThan(0.02);
      expect(reach(27)).toBeGreaterThan(0.1);
      const recorded = asRecorded.hits[i]?.b.columns as Float32Array;
      expect(Math.abs(recorded[2 * 27 + 1] as number)).toBeLessThan(0.02);
    }
    // B earlier than A: as recorded, the window follows the earlier one
    const early = pictures(struck({ delaySamples: -100.3 })).hits[0];
    expect(early?.b.arrival).toBeCloseTo(0.25, 6);
  });

  it('lose no swing: the columns’ extremes are those of the high-passed signal, worked out apart', () => {
    const engine = new Engine(RATE);
    const { a, b } = pairOfHits({ sampleRate: RATE, hits: 5 });
    engine.push(a, b);
    engine.flush();
    const passed = new Float64Array(a.length);
    new HighPass1(RATE, 100).run(Float64Array.from(a), passed, a.length);
    const newest = flat(engine.reading()).perHit.at(-1);
    const picture = pictures(engine).hits[0]?.a;
    // the earlier arrival is A's here; the window from 3 ms before it to 9 ms after
    const begin = Math.ceil((newest?.timeSeconds as number) * RATE - 0.003 * RATE);
    const window = passed.subarray(begin, begin + 0.012 * RATE - 1);
    const peak = window.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
    expect(picture?.peak).toBeCloseTo(peak, 5);
    const low = (from: number, to: number): number => Math.min(...window.subarray(from, to)) / peak;
    const high = (from: number, to: number): number => Math.max(...window.subarray(from, to)) / peak;
    const columns = picture?.columns as Float32Array;
    // six samples a column
    for (let c = 0; c < PICTURE_COLUMNS - 1; c++) {
      expect(columns[2 * c]).toBeLessThanOrEqual(low(6 * c, 6 * c + 5) + 1e-6);
      expect(columns[2 * c + 1]).toBeGreaterThanOrEqual(high(6 * c, 6 * c + 5) - 1e-6);
      const from = Math.max(0, 6 * c - 1);
      expect(columns[2 * c]).toBeGreaterThanOrEqual(low(from, 6 * c + 7) - 1e-6);
      expect(columns[2 * c + 1]).toBeLessThanOrEqual(high(from, 6 * c + 7) + 1e-6);
    }
  });

  it('one hit closely: its own window and more columns, unbroken where a sample is several columns wide', () => {
    const engine = struck({ hits: 5 });
    const { close } = pictures(engine, { closeSerial: 4 });
    expect(close?.serial).toBe(4);
    expect(close?.a.arrival).toBeCloseTo(0.5, 5);
    expect(close?.a.columns.length).toBe(2 * CLOSE_COLUMNS);
    const columns = close?.a.columns as Float32Array;
    for (let c = 1; c < CLOSE_COLUMNS; c++) {
      expect(columns[2 * c]).toBeLessThanOrEqual((columns[2 * c - 1] as number) + 1e-6);
      expect(columns[2 * c + 1]).toBeGreaterThanOrEqual((columns[2 * c - 2] as number) - 1e-6);
    }
    expect(pictures(engine, { closeSerial: 77 }).close).toBeNull();
  });

  it('turn B over with the meter’s invert', () => {
    const engine = struck();
    const plain = pictures(engine).hits[0];
    engine.setInvertB(true);
    const turned = pictures(engine).hits[0];
    expect(turned?.b.push).toBe(-(plain?.b.push as number));
    expect(turned?.a.push).toBe(plain?.a.push);
    for (let c = 0; c < PICTURE_COLUMNS; c++) {
      expect(turned?.b.columns[2 * c]).toBe(-(plain?.b.columns[2 * c + 1] as number));
    }
  });

  it('say what was clipped, what one channel alone heard, where noise was in the way', () => {
    const clip = new Engine(RATE);
    const { a, b } = pairOfHits({ sampleRate: RATE, hits: 5, gainB: 3 });
    clip.push(
      a,
      b.map((x) => Math.max(-1, Math.min(1, x))),
    );
    clip.flush();
    expect(pictures(clip).hits.map((hit) => [hit.a.clipped, hit.b.clipped])).toEqual(Array(5).fill([false, true]));
    const { hits } = pictures(struck({ noise: 0.01 }));
    expect(hits.some((hit) => hit.b.noiseBound)).toBe(true);
    const alone = new Engine(RATE);
    const pair = pairOfHits({ sampleRate: RATE, hits: 5 });
    alone.push(pair.a, new Float32Array(pair.a.length));
    alone.flush();
    const [first] = pictures(alone).hits;
    expect([first?.only, first?.b.arrival, first?.b.push]).toEqual(['a', null, 0]);
  });

  it('stay on hold, go with a restart, and never hold more than are kept', () => {
    const engine = struck({ hits: 5 });
    const before = pictures(engine);
    engine.setHold(true);
    const more = pairOfHits({ sampleRate: RATE, hits: 3, seed: 9 });
    engine.push(more.a, more.b);
    expect(pictures(engine)).toEqual(before);
    engine.setHold(false);
    engine.restart();
    expect(pictures(engine).hits).toEqual([]);
    const many = struck({ hits: HITS_KEPT + 3 });
    expect(pictures(many).hits.map((hit) => hit.serial)).toEqual(
      Array.from({ length: HITS_KEPT }, (_, i) => HITS_KEPT + 3 - i),
    );
  });

  it('refuse an array of another length', () => {
    const engine = struck({ hits: 1 });
    expect(() => engine.writePictures(new Float32Array(9), WISH)).toThrow(RangeError);
    expect(() => picturesFrom(new Float32Array(9))).toThrow(RangeError);
  });
});
