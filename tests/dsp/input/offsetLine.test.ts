import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Engine } from '../../../src/dsp/engine';
import { OffsetLine } from '../../../src/dsp/input/offsetLine';
import { readWav } from '../../../src/files/readWav';
import { type Flat, flat } from '../../support/readings/flat';
import { Gauss } from '../../support/sound/gauss';
import { REAL_ABSENT, realPath, realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';
import { shifted } from '../../support/sound/shifted';
import { type Pair, pairOfHits } from '../../support/sound/simpleKit';

/** Both through a line, in blocks of a length that divides nothing. */
function aligned(a: Float32Array, b: Float32Array, sampleRate: number, samples: number) {
  const line = new OffsetLine(sampleRate);
  line.set(samples);
  const outA = new Float64Array(a.length);
  const outB = new Float64Array(a.length);
  const block = 97;
  const into = [new Float64Array(block), new Float64Array(block)] as const;
  for (let i = 0; i < a.length; i += block) {
    const n = Math.min(block, a.length - i);
    line.run(Float64Array.from(a.subarray(i, i + n)), Float64Array.from(b.subarray(i, i + n)), into[0], into[1], n);
    outA.set(into[0].subarray(0, n), i);
    outB.set(into[1].subarray(0, n), i);
  }
  return { a: outA, b: outB, lateA: line.lateA, lateB: line.lateB };
}

function read(pair: Pair, offsetSamples: number, sampleRate = 48000): Flat {
  const engine = new Engine(sampleRate, { offsetSamples });
  for (let i = 0; i < pair.a.length; i += 512) engine.push(pair.a.subarray(i, i + 512), pair.b.subarray(i, i + 512));
  engine.flush();
  return flat(engine.reading());
}

describe('the delay line', () => {
  const noise = (seed: number): Float32Array => {
    const gauss = new Gauss(seed);
    return Float32Array.from({ length: 4000 }, () => 0.1 * gauss.next());
  };

  it('with no offset gives every bit as it is', () => {
    const a = noise(1);
    const b = noise(2);
    const out = aligned(a, b, 48000, 0);
    expect([...out.a]).toEqual([...a]);
    expect([...out.b]).toEqual([...b]);
  });

  for (const samples of [1, 12, 960, -1, -12, -960])
    it(`${samples} whole samples: the earlier channel later, bit for bit`, () => {
      const a = noise(1);
      const b = noise(2);
      const out = aligned(a, b, 48000, samples);
      const by = Math.abs(samples);
      const [late, as, lateIn, asIn] = samples > 0 ? [out.a, out.b, a, b] : [out.b, out.a, b, a];
      expect([...as]).toEqual([...asIn]);
      expect([...late.subarray(by)]).toEqual([...lateIn.subarray(0, late.length - by)]);
    });

  // the phase of a sine at f against the other channel's, and its height, say what the line does at f
  for (const samples of [0.3, 12.5, 7.499, -3.75, -0.5, 441.21])
    it(`${samples} samples are taken out to 0.8 of the way to half the rate`, () => {
      for (const share of [0.02, 0.2, 0.5, 0.8]) {
        const omega = Math.PI * share;
        const a = Float32Array.from({ length: 4000 }, (_, i) => Math.sin(omega * i));
        const b = Float32Array.from({ length: 4000 }, (_, i) => Math.sin(omega * (i - samples)));
        const out = aligned(a, b, 48000, samples);
        let worst = 0;
        for (let i = 1200; i < 4000; i++)
          worst = Math.max(worst, Math.abs((out.a[i] as number) - (out.b[i] as number)));
        // error budget: 0.005 samples up to half of the way, 0.033 beyond; float32 input
        expect(worst).toBeLessThan(omega * (share > 0.5 ? 0.033 : 0.005) + 1e-6);
        let power = 0;
        for (let i = 1200; i < 4000; i++) power += (out.b[i] as number) ** 2;
        expect(Math.abs(10 * Math.log10((2 * power) / 2800))).toBeLessThan(0.4);
      }
    });

  it('refuses more than 20 ms, and what is no number', () => {
    const line = new OffsetLine(48000);
    expect(() => line.set(960.5)).toThrow('offsetSamples must be within ±960 but was 960.5');
    expect(() => line.set(Number.NaN)).toThrow(RangeError);
    expect(() => new Engine(44100, { offsetSamples: 900 })).toThrow(RangeError);
  });
});

describe('the engine with an offset', () => {
  for (const sampleRate of [44100, 96000])
    for (const offset of [12.3, -31.62, 0.5])
      for (const sign of [1, -1])
        it(`${offset} samples later, ${sign > 0 ? 'same' : 'inverted'}, at ${sampleRate} Hz, reads as if nothing were`, () => {
          const delaySamples = 9.4;
          const plain = read(pairOfHits({ sampleRate, delaySamples, sign }), 0, sampleRate);
          const r = read(pairOfHits({ sampleRate, delaySamples: delaySamples + offset, sign }), offset, sampleRate);
          expect(r.offsetSamples).toBe(offset);
          expect(r).toMatchObject({ state: 'measured', polarity: plain.polarity, hitsUsed: plain.hitsUsed });
          expect(Math.abs((r.delaySamples ?? Number.NaN) - (plain.delaySamples ?? Number.NaN))).toBeLessThan(0.1);
          expect(r.correlation).toBeCloseTo(plain.correlation ?? Number.NaN, 2);
          expect(r.fuller).toBe(plain.fuller);
        });

  it('of nought reads bit for bit as without one', () => {
    const pair = pairOfHits();
    const engine = new Engine(48000);
    engine.setOffset(0);
    engine.push(pair.a, pair.b);
    engine.flush();
    expect(flat(engine.reading())).toEqual(read(pair, 0));
  });

  it('of whole samples reads as the same pair moved by hand', () => {
    const { a, b } = pairOfHits({ delaySamples: 40.4 });
    const later = a.map((_, i) => (i >= 28 ? (a[i - 28] as number) : 0));
    const r = read({ a, b }, 28);
    const byHand = read({ a: later, b }, 0);
    expect(r.delaySamples).toBe(byHand.delaySamples);
    expect([...r.curve.values]).toEqual([...byHand.curve.values]);
    expect(r.bands).toEqual(byHand.bands);
  });

  it('swapped and negated reads the negative', () => {
    const { a, b } = pairOfHits({ delaySamples: 21.7 });
    const r = read({ a, b }, 12.3);
    const swapped = read({ a: b, b: a }, -12.3);
    expect(swapped.delaySamples).toBeCloseTo(-(r.delaySamples ?? Number.NaN), 6);
    expect(swapped.polarity).toBe(r.polarity);
  });

  it('forgets the hits when it is set', () => {
    const pair = pairOfHits();
    const engine = new Engine(48000);
    engine.push(pair.a, pair.b);
    expect(flat(engine.reading()).hits).toBe(8);
    engine.setOffset(3.5);
    expect(flat(engine.reading())).toMatchObject({ hits: 0, offsetSamples: 3.5, delaySamples: null });
  });

  it('counts clips and sees equal bits in the inputs themselves', () => {
    const clip = pairOfHits({ gainA: 4 });
    clip.a = clip.a.map((v) => Math.max(-1, Math.min(1, v)));
    const plain = read(clip, 0);
    const r = read(clip, 7.5);
    expect(r.a.clips).toBe(plain.a.clips);
    expect([r.state, r.reason]).toEqual(['overloaded', 'clipped-a']);
    const { a } = pairOfHits();
    expect(read({ a, b: a }, 7.5).reason).toBe('bit-identical');
  });
});

describe.skipIf(!realRecordingsHere)(`real recordings${realRecordingsHere ? '' : `: ${REAL_ABSENT}`}`, () => {
  const firm = realRecordingsHere ? realRecordings().filter((r) => r.class === 'firm') : [];
  for (const [i, recording] of firm.entries())
    it(`${recording.file}: shifted and corrected by a fraction, it reads the same`, () => {
      const wav = readWav(readFileSync(realPath(recording.file)));
      const frames = Math.min(wav.frames, 8 * wav.sampleRate);
      const a = wav.read(0).subarray(0, frames);
      const b = wav.read(1).subarray(0, frames);
      const offset = (i % 2 ? -1 : 1) * (5 + i + 0.1 + 0.09 * i);
      const plain = read({ a, b }, 0, wav.sampleRate);
      const r = read({ a, b: shifted(b, offset) }, offset, wav.sampleRate);
      expect(r).toMatchObject({ state: plain.state, polarity: plain.polarity, method: plain.method });
      expect(r.fuller).toBe(plain.fuller);
      // hit by hit; the median over them moves by its scatter when one more hit or one less is used
      const apart = plain.perHit
        .map((hit) => {
          const twin = r.perHit.find((other) => Math.abs(other.timeSeconds - hit.timeSeconds) < 0.005);
          return Math.abs((twin?.delaySamples ?? Number.NaN) - (hit.delaySamples ?? Number.NaN));
        })
        .filter((difference) => !Number.isNaN(difference))
        .sort((x, y) => x - y);
      expect(apart.length).toBeGreaterThanOrEqual(plain.hitsUsed - 1);
      expect(apart[apart.length >> 1]).toBeLessThan(0.1);
      expect(Math.abs((r.delaySamples ?? 0) - (plain.delaySamples ?? 0))).toBeLessThan(
        Math.max(0.1, plain.spreadSamples ?? 0),
      );
    });
});
