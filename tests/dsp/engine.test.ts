import { describe, expect, it } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { type Flat, flat } from '../support/readings/flat';
import { type Pair, pairOfHits } from '../support/sound/simpleKit';

function read(pair: Pair, sampleRate = 48000, block = 512): Flat {
  const engine = new Engine(sampleRate);
  for (let i = 0; i < pair.a.length; i += block)
    engine.push(pair.a.subarray(i, i + block), pair.b.subarray(i, i + block));
  engine.flush();
  return flat(engine.reading());
}

const scaled = (x: Float32Array, g: number): Float32Array => x.map((v) => v * g);

/** Everything of a reading that a gain must not touch. */
function heart(r: Flat): unknown {
  return {
    state: r.state,
    polarity: r.polarity,
    delay: r.delaySamples?.toFixed(6),
    fuller: r.fuller,
    fullerDb: r.fullerDb?.toFixed(6),
    correlation: r.correlation?.toFixed(6),
    bands: r.bands.map((b) => b.correlation?.toFixed(6)),
  };
}

describe('the engine reads', () => {
  for (const sampleRate of [44100, 48000, 88200, 96000])
    for (const delaySamples of [-40.7, 0.2, 12.4, 151.6])
      for (const sign of [1, -1])
        it(`${delaySamples} samples, ${sign > 0 ? 'same' : 'inverted'}, at ${sampleRate} Hz`, () => {
          const r = read(pairOfHits({ sampleRate, delaySamples, sign }), sampleRate);
          expect(r.state).toBe('measured');
          expect(r.polarity).toBe(sign > 0 ? 'same' : 'inverted');
          // 5 mm at 343 m/s
          expect(Math.abs((r.delaySamples ?? Number.NaN) - delaySamples) / sampleRate).toBeLessThan(0.005 / 343);
        });

  it('a room’s delay with the wider reach', () => {
    const pair = pairOfHits({ delaySamples: 960 });
    const engine = new Engine(48000, { maxLagMs: 34 });
    engine.push(pair.a, pair.b);
    engine.flush();
    expect(flat(engine.reading()).delaySamples).toBeCloseTo(960, 0);
  });

  it('needs four hits, and says how many it has', () => {
    const r = read(pairOfHits({ hits: 3 }));
    expect(r.state).toBe('listening');
    expect(r.hits).toBe(3);
    expect(r.hitsPooled).toBe(3);
    expect(r.delaySamples).toBeNull();
    expect(r.polarity).toBeNull();
  });

  it('scatter and uncertainty as two figures', () => {
    const r = read(pairOfHits({ noise: 1e-4 }));
    expect(r.spreadSamples).not.toBeNull();
    expect(r.uncertaintySamples).not.toBeNull();
    expect(r.uncertaintySamples).not.toBe(r.spreadSamples);
  });
});

describe('what must change nothing, and what must change exactly', () => {
  const pair = pairOfHits({ noise: 2e-4 });
  const plain = read(pair);

  it('the length of the blocks', () => {
    for (const block of [1, 37, 128, 441, 4096, 100000]) expect(read(pair, 48000, block)).toEqual(plain);
  });

  it('a gain common to both', () => {
    expect(heart(read({ a: scaled(pair.a, 0.25), b: scaled(pair.b, 0.25) }))).toEqual(heart(plain));
  });

  it('a gain on one channel', () => {
    expect(heart(read({ a: pair.a, b: scaled(pair.b, 0.125) }))).toEqual(heart(plain));
    expect(heart(read({ a: scaled(pair.a, 0.25), b: pair.b }))).toEqual(heart(plain));
  });

  it('inverting B flips polarity and `fuller`', () => {
    const r = read({ a: pair.a, b: scaled(pair.b, -1) });
    expect(r.delaySamples).toBeCloseTo(plain.delaySamples ?? Number.NaN, 9);
    expect(plain.polarity).toBe('same');
    expect(r.polarity).toBe('inverted');
    expect(plain.fuller).not.toBe('either');
    expect(r.fuller).toBe(plain.fuller === 'as-is' ? 'inverted' : 'as-is');
    expect(r.correlation).toBeCloseTo(-(plain.correlation ?? Number.NaN), 9);
  });

  it('the meter’s own invert says the same at once as inverted samples', () => {
    const engine = new Engine(48000);
    engine.push(pair.a, pair.b);
    engine.flush();
    engine.setInvertB(true);
    const turned = flat(engine.reading());
    const truly = read({ a: pair.a, b: scaled(pair.b, -1) });
    expect(turned.polarity).toBe(truly.polarity);
    expect(turned.fuller).toBe(truly.fuller);
    expect(turned.fullerDb).toBeCloseTo(truly.fullerDb ?? Number.NaN, 9);
    for (const [i, band] of turned.bands.entries()) {
      const other = truly.bands[i];
      if (band.sumDb !== null) expect(band.sumDb).toBeCloseTo(other?.sumDb ?? Number.NaN, 9);
      if (band.sumAsRecordedDb !== null)
        expect(band.sumAsRecordedDb).toBeCloseTo(other?.sumAsRecordedDb ?? Number.NaN, 9);
    }
    for (let i = 0; i < turned.curve.values.length; i += 50)
      expect(turned.curve.values[i]).toBeCloseTo(truly.curve.values[i] ?? Number.NaN, 6);
  });

  it('swapping A and B negates the delay', () => {
    const r = read({ a: pair.b, b: pair.a });
    expect(r.polarity).toBe(plain.polarity);
    expect(r.delaySamples).toBeCloseTo(-(plain.delaySamples ?? Number.NaN), 2);
    expect(r.correlation).toBeCloseTo(plain.correlation ?? Number.NaN, 6);
  });

  it('shifting B by k samples moves the delay by k', () => {
    for (const k of [-60, -7, 3, 100]) {
      const b = new Float32Array(pair.b.length);
      for (let i = 0; i < b.length; i++) b[i] = pair.b[i - k] ?? 0;
      const r = read({ a: pair.a, b });
      expect(r.state).toBe('measured');
      // the noise before the pick moves along with the window, so equal to a fraction of a sample only
      expect((r.delaySamples ?? Number.NaN) - (plain.delaySamples ?? Number.NaN)).toBeCloseTo(k, 1);
    }
  });

  it('restart forgets, hold keeps', () => {
    const engine = new Engine(48000);
    engine.push(pair.a, pair.b);
    engine.flush();
    const before = flat(engine.reading());
    engine.setHold(true);
    engine.push(pair.b, pair.a);
    expect(flat(engine.reading()).hits).toBe(before.hits);
    expect(flat(engine.reading()).delaySamples).toBe(before.delaySamples);
    engine.setHold(false);
    engine.restart();
    const after = flat(engine.reading());
    expect(after.hits).toBe(0);
    expect(after.state).toBe('listening');
    expect(after.streamSeconds).toBe(0);
    engine.push(pair.a, pair.b);
    engine.flush();
    expect(flat(engine.reading()).delaySamples).toBeCloseTo(before.delaySamples ?? Number.NaN, 6);
  });
});

/** Readings after each hit of a pair, a while after it began. */
function afterEachHit(pair: Pair): Flat[] {
  const engine = new Engine(48000);
  const list: Flat[] = [];
  for (let i = 0; i < pair.a.length; i += 480) {
    engine.push(pair.a.subarray(i, i + 480), pair.b.subarray(i, i + 480));
    const r = flat(engine.reading());
    if (r.hits > 0) list[r.hits - 1] = r;
  }
  return list;
}

/** 1 cm of path in samples at 48 kHz, 343.2 m/s */
const CM = (0.01 / 343.2) * 48000;

describe('a stand that is moved', () => {
  it.each([2, 4, 15])('%d cm at once: gone after two hits, "moved", right again four hits after the move', (cm) => {
    const list = afterEachHit(pairOfHits({ hits: 16, noise: 1e-4, delaySamples: (h) => 12 + (h >= 8 ? cm * CM : 0) }));
    expect(list[7]?.state).toBe('measured');
    const second = list[9];
    expect(second?.state).not.toBe('measured');
    expect(second?.reason).toBe('moved');
    expect(second?.delaySamples).toBeNull();
    for (const after of list.slice(11)) {
      expect(after.state).toBe('measured');
      expect(Math.abs((after.delaySamples ?? Number.NaN) - 12 - cm * CM)).toBeLessThan(0.5 * CM);
    }
    expect(list.at(-1)?.perHit.filter((h) => h.fate === 'old').length).toBe(8);
  });

  it.each([0.5, 1, 2])('%d cm a hit: followed while it moves, then measured where it stands', (cm) => {
    const list = afterEachHit(
      pairOfHits({ hits: 24, noise: 1e-4, delaySamples: (h) => 12 + cm * CM * Math.min(10, Math.max(0, h - 7)) }),
    );
    expect(list[7]?.state).toBe('measured');
    const followed = list.slice(8, 18).filter((r) => r.state === 'following');
    expect(followed.length).toBeGreaterThanOrEqual(4);
    for (const r of followed) {
      expect(r.reason).toBe('moving');
      expect(r.polarity).toBeNull();
      expect(r.uncertaintySamples).toBeNull();
    }
    for (const [h, r] of list.entries()) {
      if (r.state !== 'measured') continue;
      const truth = 12 + cm * CM * Math.min(10, Math.max(0, h - 7));
      expect(Math.abs((r.delaySamples ?? Number.NaN) - truth), `hit ${h + 1}`).toBeLessThan(2 * CM);
    }
    expect(list.at(-1)?.state).toBe('measured');
    expect(Math.abs((list.at(-1)?.delaySamples ?? Number.NaN) - 12 - 10 * cm * CM)).toBeLessThan(0.5 * CM);
  });

  it('a polarity switch pressed: two hits take the answer away, four give the new one', () => {
    const pair = pairOfHits({ hits: 16 });
    const turn = Math.round((0.4 + 8 * 0.6 - 0.1) * 48000);
    const list = afterEachHit({ a: pair.a, b: pair.b.map((v, i) => (i < turn ? v : -v)) });
    expect(list[7]?.polarity).toBe('same');
    expect(list[9]?.state).not.toBe('measured');
    expect(list.at(-1)?.polarity).toBe('inverted');
  });
});

describe('hold', () => {
  it('keeps the reading against whatever comes, but for levels', () => {
    const pair = pairOfHits();
    const engine = new Engine(48000);
    engine.push(pair.a, pair.b);
    engine.setHold(true);
    const before = flat(engine.reading());
    engine.push(pair.a, pair.a);
    const held = flat(engine.reading());
    expect(held.state).toBe(before.state);
    expect(held.delaySamples).toBe(before.delaySamples);
    expect(held.fullerDb).toBe(before.fullerDb);
    expect(held.hits).toBe(before.hits);
    expect(held.streamSeconds).toBeGreaterThan(before.streamSeconds);
  });
});

describe('arguments', () => {
  it('says what is wrong with them', () => {
    expect(() => new Engine(100)).toThrow(/sampleRate must be/);
    expect(() => new Engine(48000, { maxLagMs: 0 })).toThrow(/maxLagMs must be/);
    const engine = new Engine(48000);
    expect(() => engine.push(new Float32Array(3), new Float32Array(4))).toThrow(
      'b must have length 3 but had length 4',
    );
    expect(() => engine.writeFrame(new Float64Array(3))).toThrow(/out must have length/);
  });
});
