/**
 * The first push of the low end, of hand-made waves: straight rises far slower than the low-pass, so that half-way up is
 * known by arithmetic. DEVELOPERS, "How an answer comes about", 3. 3 ms are 144 frames at 48 kHz, 1 ms is 48.
 */
import { describe, expect, it } from 'vitest';
import { lowPushOf, type Push, spike } from '../../support/rules/hitRules';
import { named } from '../../support/rules/named';

const TRIGGER = 5000;
/** what a second-order Butterworth low-pass at 500 Hz is late by at low frequencies, frames: √2/(2π·500 Hz) */
const LATE = (Math.SQRT2 / (2 * Math.PI * 500)) * 48000;
/** 10 ms up, 5 ms held, 5 ms down */
const slow = (at: number, height: number): Push => ({ at, height, rise: 480, hold: 240, fall: 240 });
const HALF_WAY = 5000 + 240 + LATE;
/** a softer one of 8 ms before the drum's own */
const soft = (height: number): Push[] => [{ at: 5000, height, rise: 144, hold: 96, fall: 144 }, slow(5384, -1)];

describe('the low end’s first push', () => {
  it.each(
    named([
      { name: 'up', wave: [slow(5000, 1)], frame: HALF_WAY, sign: 1 },
      { name: 'down', wave: [slow(5000, -1)], frame: HALF_WAY, sign: -1 },
      { name: 'softly', wave: [slow(5000, 0.001)], frame: HALF_WAY, sign: 1 },
      // from 12 % of the peak on
      { name: 'first a softer one, 13 % of the peak', wave: soft(0.13), frame: 5000 + 72 + LATE, sign: 1 },
      { name: 'first a softer one, 11 % of the peak', wave: soft(0.11), frame: 5384 + 240 + LATE, sign: -1 },
      // or from three times the noise on
      {
        name: 'the softer one over noise of 4.5 %',
        wave: [{ at: 4150, height: 0.045, rise: 96, hold: 96 }, ...soft(0.13)],
        frame: 5384 + 240 + LATE,
        sign: -1,
      },
      {
        name: 'the softer one over noise of 3.5 %',
        wave: [{ at: 4150, height: 0.035, rise: 96, hold: 96 }, ...soft(0.13)],
        frame: 5000 + 72 + LATE,
        sign: 1,
      },
    ]),
  )('%s: half-way up to a frame', (_, { wave, frame, sign }) => {
    const push = lowPushOf(wave, TRIGGER);
    expect(push.found).toBe(true);
    expect(push.sign).toBe(sign);
    expect(Math.abs(push.frame - frame)).toBeLessThan(1);
  });

  it.each([1, 37, 0.25, -12.6])('is later by what the wave is later, to 0.01 frame: %d', (late) => {
    const [a, b] = [5000, 5000 + late].map((at) => lowPushOf([slow(at, 0.3)], TRIGGER).frame);
    expect(Math.abs(b - a - late)).toBeLessThan(0.01);
  });

  it.each(
    named([
      { name: 'silence', wave: [] },
      {
        name: 'noise of more than a sixth of the peak',
        wave: [{ at: 4150, height: 0.18, rise: 96, hold: 96 }, slow(5000, 1)],
      },
      { name: 'more than 11 ms after the trigger', wave: [slow(5700, 1)] },
    ]),
  )('is none: %s', (_, { wave }) => {
    const push = lowPushOf(wave, TRIGGER);
    expect([push.found, push.alone, push.first]).toEqual([false, false, false]);
  });
});

describe('the low end began alone', () => {
  const half = Math.round(HALF_WAY);
  it.each(
    named([
      { name: 'nothing in the top', top: [], alone: true },
      { name: 'a top of 1.9 times its height before it', top: [spike(half - 48, 1.9)], alone: true },
      { name: 'a top of 2.1 times its height before it', top: [spike(half - 48, 2.1)], alone: false },
      { name: 'the same downwards', top: [spike(half - 48, -2.1)], alone: false },
      { name: '2.9 ms before half-way', top: [spike(half - 140, 2.1)], alone: false },
      { name: '3.1 ms before half-way', top: [spike(half - 149, 2.1)], alone: true },
      { name: 'between half-way and its summit', top: [spike(half + 100, 2.1)], alone: false },
      { name: 'after its summit', top: [spike(5900, 2.1)], alone: true },
    ]),
  )('%s', (_, { top, alone }) => {
    const push = lowPushOf([slow(5000, 1)], TRIGGER, top);
    expect(push.alone).toBe(alone);
    // what began the hit then is the top
    expect(push.highLed).toBe(!alone);
  });

  it.each(
    named([
      { name: 'as far as is known', onset: Number.NaN, first: true },
      { name: 'the whole signal begins 0.98 ms before half-way', onset: HALF_WAY - 47, first: true },
      { name: 'the whole signal begins 1.06 ms before half-way: a softer push', onset: HALF_WAY - 51, first: false },
      { name: 'the whole signal begins after it', onset: HALF_WAY + 60, first: true },
    ]),
  )('and is the first push: %s', (_, { onset, first }) => {
    expect(lowPushOf([slow(5000, 1)], TRIGGER, [], onset).first).toBe(first);
  });
});

describe('a hit of which no low push can be seen', () => {
  const wave = [slow(5700, 1)];
  it.each(
    named([
      { name: 'led by a top higher than the low end', top: [spike(5100, 1.1)], highLed: true },
      { name: 'not led by one lower than the low end', top: [spike(5100, 0.9)], highLed: false },
    ]),
  )('is %s', (_, { top, highLed }) => expect(lowPushOf(wave, TRIGGER, top)).toMatchObject({ found: false, highLed }));
});
