import { describe, expect, it } from 'vitest';
import { Engine } from '../../../src/dsp/engine';
import { PICTURES_LENGTH, picturesFrom } from '../../../src/reading/hitPictures';
import type { DrumReading } from '../../../src/reading/reading';
import { type Flat, flat } from '../../support/readings/flat';
import { Gauss } from '../../support/sound/gauss';
import { BETWEEN, HIGH, LOW, type StruckDrum, twoDrums } from '../../support/sound/twoDrums';

const RATE = 48000;

function read(pair: { a: Float32Array; b: Float32Array }): Flat {
  const engine = new Engine(RATE);
  engine.push(pair.a, pair.b);
  engine.flush();
  return flat(engine.reading());
}

const byDelay = (r: Flat, delay: number): DrumReading | undefined =>
  r.drums.find((d) => d.delaySamples !== null && Math.abs(d.delaySamples - delay) < 0.5);

describe('two drums struck in turn', () => {
  it('have a pool and an answer each, and the reading is of the one that a microphone stands at', () => {
    const r = read(twoDrums(RATE, 8));
    expect(r.drums.length).toBe(2);
    expect(byDelay(r, LOW.delaySamples)).toMatchObject({ state: 'measured', polarity: 'same', hits: 8, hitsUsed: 8 });
    expect(byDelay(r, HIGH.delaySamples)).toMatchObject({ state: 'measured', polarity: 'inverted', hits: 8 });
    expect(r).toMatchObject({ state: 'measured', polarity: 'inverted', drumChosen: false, hits: 16, hitsUsed: 8 });
    expect(r.drum).toBe(byDelay(r, HIGH.delaySamples)?.id);
    expect(byDelay(r, LOW.delaySamples)?.centreHz).toBeLessThan(byDelay(r, HIGH.delaySamples)?.centreHz ?? 0);
  });

  it('that sound alike are told apart by their arrivals', () => {
    const near: StruckDrum = { ...LOW, delaySamples: 40 };
    const far: StruckDrum = { ...LOW, delaySamples: -30 };
    const r = read(twoDrums(RATE, 12, [near, far]));
    expect(byDelay(r, 40)).toMatchObject({ state: 'measured', polarity: 'same' });
    expect(byDelay(r, -30)).toMatchObject({ state: 'measured', polarity: 'same' });
  });

  it('never share a hit: each used hit belongs to one drum', () => {
    const r = read(twoDrums(RATE, 6));
    for (const hit of r.perHit) {
      if (hit.fate !== 'used') continue;
      const drum = r.drums.find((d) => d.id === hit.drum);
      expect(Math.abs((hit.delaySamples ?? Number.NaN) - (drum?.delaySamples ?? Number.NaN))).toBeLessThan(1);
    }
  });
});

describe('which of the drums the reading is of', () => {
  const SNARE: StruckDrum = { ...HIGH, delaySamples: 60, sign: 1 };
  const TOM: StruckDrum = { ...LOW, gainA: 0.02, gainB: 0.3, delaySamples: -25 };

  it('stays the one that A stands at, while another one, softer in A, is hit 40 times', () => {
    const engine = new Engine(RATE);
    const snare = twoDrums(RATE, 12, [SNARE]);
    const tom = twoDrums(RATE, 40, [TOM]);
    engine.push(snare.a, snare.b);
    const before = flat(engine.reading());
    expect(before).toMatchObject({ state: 'measured', polarity: 'same', hitsUsed: 12 });
    const { drum, delaySamples } = before;
    for (let i = 0; i < tom.a.length; i += 4800) {
      engine.push(tom.a.subarray(i, i + 4800), tom.b.subarray(i, i + 4800));
      expect(flat(engine.reading())).toMatchObject({ state: 'measured', drum, delaySamples, hitsUsed: 12 });
    }
    const after = flat(engine.reading());
    expect(after.drums.find(({ id }) => id !== drum)).toMatchObject({ state: 'measured', hits: 40 });
    expect(engine.usedHits()).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    // its hits are told one by one, and beside them the newest of the other
    expect(after.perHit.map((hit) => hit.serial)).toEqual([
      ...Array.from({ length: 12 }, (_, i) => i + 1),
      ...Array.from({ length: 20 }, (_, i) => i + 33),
    ]);
    const pictures = new Float32Array(PICTURES_LENGTH);
    engine.writePictures(pictures, {
      alignSamples: null,
      fromMs: -3,
      lengthMs: 12,
      closeSerial: 0,
      closeFromMs: -1,
      closeLengthMs: 2,
    });
    expect(picturesFrom(pictures).hits.map((hit) => hit.serial)).toEqual(
      after.perHit.map((hit) => hit.serial).reverse(),
    );
  });

  it('is open where two overheads hear two alike, until one is chosen', () => {
    const engine = new Engine(RATE);
    const { a, b } = twoDrums(RATE, 6, BETWEEN);
    engine.push(a, b);
    engine.flush();
    const open = flat(engine.reading());
    expect(open).toMatchObject({ state: 'unclear', reason: 'which-drum', drum: null, drumChosen: false, hitsUsed: 0 });
    expect([open.polarity, open.delaySamples, open.fuller, open.correlation]).toEqual([null, null, null, null]);
    expect(engine.usedHits()).toEqual([]);
    for (const { delaySamples } of BETWEEN) {
      const drum = byDelay(open, delaySamples);
      expect(drum).toMatchObject({ state: 'measured', polarity: 'same' });
      engine.setDrum(drum?.id ?? 0);
      const chosen = flat(engine.reading());
      expect(chosen).toMatchObject({ state: 'measured', polarity: 'same', drum: drum?.id, drumChosen: true });
      expect(chosen.delaySamples).toBeCloseTo(delaySamples, 0);
    }
    engine.setDrum(null);
    expect(flat(engine.reading())).toMatchObject({ state: 'unclear', reason: 'which-drum', drum: null });
  });
});

describe('a microphone that was moved', () => {
  it('has moved for every drum, as soon as one has shown where it is now', () => {
    const before = twoDrums(RATE, 8);
    const later = (drum: StruckDrum): StruckDrum => ({ ...drum, delaySamples: drum.delaySamples + 12 });
    const after = twoDrums(RATE, 8, [later(LOW)]);
    const engine = new Engine(RATE);
    engine.push(before.a, before.b);
    expect(byDelay(flat(engine.reading()), HIGH.delaySamples)?.state).toBe('measured');
    engine.push(after.a, after.b);
    engine.flush();
    const r = flat(engine.reading());
    expect(byDelay(r, LOW.delaySamples + 12)?.state).toBe('measured');
    const high = r.drums.find((d) => (d.centreHz ?? 0) > 300);
    expect(high).toMatchObject({ state: 'listening', reason: 'moved', delaySamples: null, polarity: null });
  });
});

/** White bursts, the same in both channels but for a delay, at the given times. */
function addHiHat(x: Float32Array, times: readonly number[], delaySamples: number, level: number): void {
  for (const [k, t] of times.entries()) {
    const gauss = new Gauss(100 + k);
    let before = 0;
    const from = Math.round(t * RATE) + delaySamples;
    for (let i = 0; i < 0.05 * RATE; i++) {
      const white = gauss.next();
      // the top only
      const v = white - before;
      before = white;
      x[from + i] = (x[from + i] as number) + level * v * Math.exp(-i / (0.012 * RATE));
    }
  }
}

describe('a cymbal with the drum', () => {
  const times = (early: number): number[] => Array.from({ length: 12 }, (_, h) => 0.4 + h * 0.4 + early);

  it('behind the first push leaves the drum its answer', () => {
    const { a, b } = twoDrums(RATE, 12, [LOW]);
    addHiHat(a, times(0.016), 0, 0.012);
    addHiHat(b, times(0.016), -60, 0.012);
    expect(read({ a, b })).toMatchObject({ state: 'measured', polarity: 'same' });
  });

  it('before the first push leaves the answer: such a hit is used where it shows the drum’s own delay behind the cymbal, never with the cymbal’s', () => {
    const { a, b } = twoDrums(RATE, 12, [LOW]);
    // on every second hit only
    const some = times(-0.004).filter((_, h) => h % 2 === 1);
    addHiHat(a, some, 0, 0.012);
    addHiHat(b, some, -60, 0.012);
    const r = read({ a, b });
    expect(r.state).toBe('measured');
    expect(Math.abs((r.delaySamples ?? Number.NaN) - LOW.delaySamples)).toBeLessThan(1);
    const covered = r.perHit.filter((hit) => some.some((t) => Math.abs(hit.timeSeconds - t) < 0.02));
    expect(covered.length).toBe(some.length);
    for (const { fate, delaySamples } of covered.filter((hit) => hit.fate === 'used'))
      expect(Math.abs((delaySamples ?? Number.NaN) - LOW.delaySamples), fate).toBeLessThan(1.5);
  });
});

describe('a second stroke too close to the first', () => {
  it('is counted and left alone', () => {
    const { a, b } = twoDrums(RATE, 6, [HIGH]);
    const soon = Math.round(0.06 * RATE);
    const shift = (x: Float32Array): Float32Array => x.map((v, i) => v + 1.5 * (x[i - soon] ?? 0));
    const r = read({ a: shift(a), b: shift(b) });
    expect(r.perHit.filter((hit) => hit.fate === 'too-soon').length).toBeGreaterThanOrEqual(4);
    expect(r.perHit.filter((hit) => hit.fate === 'too-soon').every((hit) => hit.delaySamples === null)).toBe(true);
  });
});
