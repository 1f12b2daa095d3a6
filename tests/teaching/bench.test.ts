import { describe, expect, it } from 'vitest';
import { combCurve, hzAlong, sumDbAt } from '../../src/teaching/bench/comb';
import { capsuleAt, DRUMS, distanceCm, hitPlace, nearestPlace, roomOf } from '../../src/teaching/bench/drums';
import {
  freshBench,
  invert,
  moveMic,
  setBody,
  setKind,
  setMixDelay,
  setPhantom,
  stepMic,
} from '../../src/teaching/bench/edits';
import { figuresOf, firstNotchHz } from '../../src/teaching/bench/figures';
import type { Bench, DrumId } from '../../src/teaching/bench/model';
import { SPEAKER_LATE_MS } from '../../src/teaching/bench/speaker';

/** Two mics above a snare, straight up from the hit (at 7 cm), their capsules so far from it, cm. */
const above = (aCm: number, bCm: number, change: Partial<Bench> = {}): Bench =>
  freshBench('snare', [0, 7 + aCm, { bodyCm: 0 }], [0, 7 + bCm, { bodyCm: 0 }], change);

/** 1 m of difference, as a delay in the mix on top of equal paths: no path is that long here. */
const late = (ms: number): Bench => setMixDelay(above(20, 20), 'b', ms);

describe('the comb of two equal mics', () => {
  // Everest & Pohlmann, "Master Handbook of Acoustics", ch. 10: nulls at n/(2t) for odd n, peaks +6.02 dB at n/t
  it('has its nulls where the handbook has them', () => {
    const oneMs = late(1);
    expect(figuresOf(oneMs).notchesHz?.slice(0, 3).map(Math.round)).toEqual([500, 1500, 2500]);
    for (const hz of [500, 1500, 2500]) expect(sumDbAt(oneMs, hz)).toBeLessThan(-50);
    for (const hz of [1000, 2000, 3000]) expect(sumDbAt(oneMs, hz)).toBeCloseTo(6.02, 2);
    const tenth = late(0.1);
    expect(figuresOf(tenth).notchesHz?.map(Math.round)).toEqual([5000, 15000]);
  });

  // follows from the formula (shared check values): inverted, peaks and nulls change places, 0 Hz included
  it('changes peaks for nulls where one is inverted, and nothing else', () => {
    const turned = invert(late(1), 'b');
    expect(figuresOf(turned).notchesHz?.slice(0, 3).map(Math.round)).toEqual([0, 1000, 2000]);
    expect(firstNotchHz(figuresOf(turned))).toBeCloseTo(1000, 6);
    for (const hz of [37, 440, 500, 999, 3456]) {
      // |1+e|² + |1−e|² = 4
      const both = 10 ** (sumDbAt(late(1), hz) / 10) + 10 ** (sumDbAt(turned, hz) / 10);
      expect(both).toBeCloseTo(4, 4);
    }
  });

  // "Audio Engineering: Know It All" (Newnes), table 2.9, re 90 dB
  it('sums two tones as the table has them', () => {
    const table = [
      6.02, 5.99, 5.89, 5.72, 5.48, 5.17, 4.77, 4.29, 3.71, 3.01, 2.18, 1.19, 0, -1.46, -3.3, -5.72, -9.19, -15.17,
    ];
    table.forEach((db, i) => {
      const hz = (10 * i) / 360 / 0.001;
      expect(Math.abs(sumDbAt(late(1), hz) - db), `${10 * i}°`).toBeLessThanOrEqual(0.006);
    });
  });

  it('is drawn through its notches, in rising order', () => {
    const curve = combCurve(late(1), 50);
    expect(curve.map(({ along }) => along)).toEqual(curve.map(({ along }) => along).toSorted((p, q) => p - q));
    expect(Math.min(...curve.map(({ db }) => db))).toBe(-60);
    expect(hzAlong(0)).toBe(30);
  });
});

describe('levels by distance', () => {
  // shared check values, recomputed: copy L dB down, peak / notch = 20·log10(1 ± 10^(−L/20))
  it('three to one is 9.54 dB, and leaves +2.50 and −3.52 dB', () => {
    const figures = figuresOf(above(10, 30, { levels: 'distance' }));
    expect(figures.ratio).toBeCloseTo(3, 9);
    expect(figures.levelDifferenceDb).toBeCloseTo(-9.542, 3);
    expect(figures.peakDb).toBeCloseTo(2.5, 2);
    expect(figures.notchDb).toBeCloseTo(-3.52, 2);
    const bench = above(10, 30, { levels: 'distance' });
    expect(sumDbAt(bench, firstNotchHz(figures) ?? 0)).toBeCloseTo(-3.52, 2);
    expect(sumDbAt(bench, 2 * (firstNotchHz(figures) ?? 0))).toBeCloseTo(2.5, 2);
  });

  it('a dip of 1 dB takes 9.2 to 1', () => {
    expect(figuresOf(above(5, 46, { levels: 'distance' })).notchDb).toBeGreaterThan(-1.01);
    expect(figuresOf(above(5, 45.5, { levels: 'distance' })).notchDb).toBeLessThan(-1);
  });
});

describe('paths and delays', () => {
  // Cramer, JASA 93 (1993): 343.36 m/s at 20 °C, dry; the formula here lies within 0.8 m/s of it from 0 to 30 °C
  it.each([
    [0, 331.45],
    [20, 343.36],
    [30, 349.15],
  ])('at %i °C a delay is the path over Cramer’s speed of sound', (temperatureC, metresPerSecond) => {
    const { pathCm, delayMs } = figuresOf(above(10, 44, { temperatureC }));
    expect(pathCm).toBeCloseTo(34, 9);
    expect(Math.abs((pathCm * 10) / delayMs - metresPerSecond)).toBeLessThan(0.8);
  });

  // shared check values: 1 m at 343.2 m/s = 2.914 ms, first null 171.6 Hz
  it('1 m is 2.91 ms, first notch at 172 Hz', () => {
    const a = freshBench('kit', [-28, 72, { bodyCm: 0 }], [-28, 172, { bodyCm: 0 }]);
    expect(figuresOf(a).pathCm).toBeCloseTo(100, 9);
    expect(figuresOf(a).delayMs).toBeCloseTo(2.914, 3);
    expect(firstNotchHz(figuresOf(a))).toBeCloseTo(171.6, 1);
  });

  it('go to the capsule, behind the grille and in line with the place hit', () => {
    const bench = freshBench('snare', [-12, 20], [12, 20, { bodyCm: 4.5 }]);
    const { at } = hitPlace(bench);
    expect(distanceCm(bench.a.grille, at)).toBeCloseTo(distanceCm(bench.b.grille, at), 9);
    expect(figuresOf(bench).pathCm).toBeCloseTo(4, 9);
    expect(distanceCm(capsuleAt(bench, bench.b), bench.b.grille)).toBeCloseTo(4.5, 9);
  });
});

describe('polarity follows from the side and the switch', () => {
  // a head driven away from one side goes towards the other (common practice, no source)
  it('top and bottom are opposite, top and top the same', () => {
    const both = freshBench('snare', [-10, 15], [10, -15]);
    expect([figuresOf(both).a.push, figuresOf(both).b.push]).toEqual([-1, 1]);
    expect(figuresOf(both).polarity).toBe('inverted');
    expect(figuresOf(invert(both, 'b')).polarity).toBe('same');
    expect(figuresOf(moveMic(both, 'b', { xCm: 10, yCm: 15 })).polarity).toBe('same');
  });

  it('inside and in front of a kick are the same, the beater side is opposite', () => {
    expect(figuresOf(freshBench('kick', [20, 0], [60, 0])).polarity).toBe('same');
    expect(figuresOf(freshBench('kick', [-8, 0], [60, 0])).polarity).toBe('inverted');
    expect(figuresOf(freshBench('kick', [-8, 0], [20, 0])).polarity).toBe('inverted');
  });

  it('a speaker is wired either way, passes only the lows, late, and has no closed form for its notches', () => {
    const bench = setKind(setPhantom(freshBench('kick', [20, 0], [20, 0.1]), 'b', false), 'b', 'speaker');
    expect(figuresOf(bench).polarity).toBe('inverted');
    expect(figuresOf(invert(bench, 'b')).polarity).toBe('same');
    expect(figuresOf(bench).notchesHz).toBeNull();
    // second-order Butterworth low-pass at 120 Hz: −3 dB there, group delay √2/(2πf) in the lows
    expect(SPEAKER_LATE_MS).toBeCloseTo(1.876, 3);
    expect(sumDbAt(invert(bench, 'b'), 1)).toBeCloseTo(6.02, 1);
    expect(Math.abs(sumDbAt(bench, 8000))).toBeLessThan(0.01);
  });
});

describe('what can be done', () => {
  it('a speaker isn’t plugged in while phantom power is on, and phantom isn’t put on a speaker', () => {
    const bench = freshBench('kick', [20, 0], [60, 0]);
    expect(setKind(bench, 'b', 'speaker')).toBe(bench);
    const off = setKind(setPhantom(bench, 'b', false), 'b', 'speaker');
    expect(off.b.kind).toBe('speaker');
    expect(setPhantom(off, 'b', true)).toBe(off);
  });

  it.each(['snare', 'kick', 'kit'] as const)(
    'a mic never stands in a head or outside of the drawing: %s',
    (drum: DrumId) => {
      const { view } = DRUMS[drum];
      for (let xCm = -200; xCm <= 200; xCm += 7) {
        for (let yCm = -200; yCm <= 260; yCm += 7) {
          const place = nearestPlace(drum, { xCm, yCm });
          expect(roomOf(drum, place)).toBeGreaterThanOrEqual(0);
          expect(place.xCm > view.leftCm && place.xCm < view.rightCm).toBe(true);
          expect(place.yCm > view.bottomCm && place.yCm < view.topCm).toBe(true);
        }
      }
    },
  );

  it('arrows take a mic over a drum to its other side', () => {
    let bench = freshBench('snare', [0, 10], [10, 12]);
    for (let i = 0; i < 3; i++) bench = stepMic(bench, 'a', { xCm: 0, yCm: -1 });
    expect(bench.a.grille).toEqual({ xCm: 0, yCm: -10 });
    expect(stepMic(bench, 'a', { xCm: 0, yCm: 1 }).a.grille.yCm).toBe(-9);
    expect(stepMic(stepMic(bench, 'a', { xCm: 0, yCm: 1 }), 'a', { xCm: 0, yCm: 1 }).a.grille.yCm).toBe(9);
  });

  it('keeps what was where a number is none, and stays within what a mic can have', () => {
    const bench = above(10, 20);
    expect(setMixDelay(bench, 'a', Number.NaN).a.mixDelayMs).toBe(0);
    expect(setMixDelay(bench, 'a', 99).a.mixDelayMs).toBe(20);
    expect(setBody(bench, 'a', -1).a.bodyCm).toBe(0);
  });
});
