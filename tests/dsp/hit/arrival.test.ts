/**
 * The first push of hand-made waves: straight rises, so that the foot (10 % of the first half-wave) is known by arithmetic.
 * DEVELOPERS, "How an answer comes about", 2. At 48 kHz: reach 528 frames, noise from the 720 before that, 2 ms are 96.
 */
import { describe, expect, it } from 'vitest';
import { arrivalOf, lookAheadFrames, type Push, spike } from '../../support/rules/hitRules';
import { named } from '../../support/rules/named';
import { LIMITS, RATE } from '../../support/rules/rules';

const TRIGGER = 5010;
/** rises over 20 frames: 10 % after 2 */
const push = (at: number, height: number): Push => ({ at, height, rise: 20 });
/** in the stretch that noise is taken from */
const noise = (height: number): Push => spike(TRIGGER - 700, height);
const flat = (frames: number, height: number): Push[] =>
  Array.from({ length: frames }, (_, i) => spike(5000 + i, height));

interface Row {
  name: string;
  wave: Push[];
  /** null: none */
  frame: number | null;
  sign?: number;
  noiseBound?: boolean;
}

const rows: Row[] = [
  { name: 'a push', wave: [push(5000, 1)], frame: 5002 },
  { name: 'the other way', wave: [push(5000, -1)], frame: 5002, sign: -1 },
  { name: 'between two frames', wave: [{ ...push(5000.37, 1), hold: 2 }], frame: 5002.37 },
  { name: 'before the trigger’s block', wave: [push(4500, 1)], frame: 4502 },
  { name: 'with a swing after it', wave: [push(5000, 0.4), push(5040, -1)], frame: 5002 },
  // what counts begins at 4 % of the peak
  { name: 'a soft one, 4.5 % of the peak', wave: [push(5000, 0.045), push(5040, -1)], frame: 5002 },
  { name: 'too soft, 3.5 % of the peak', wave: [push(5000, 0.035), push(5040, -1)], frame: 5042, sign: -1 },
  // or at three times the noise; its foot is no lower than half as much again as the noise: 0.021 of 0.05 after 8.4
  {
    name: 'a soft one over little noise',
    wave: [noise(0.013), push(5000, 0.045), push(5040, -1)],
    frame: 5000 + (0.0195 / 0.045) * 20,
  },
  {
    name: 'a soft one over as much as sets the threshold',
    wave: [noise(0.014), push(5000, 0.05), push(5040, -1)],
    frame: 5008.4,
    noiseBound: true,
  },
  {
    name: 'one that noise hides',
    wave: [noise(0.014), push(5000, 0.041), push(5040, -1)],
    frame: 5040 + 2,
    sign: -1,
    noiseBound: true,
  },
  {
    name: 'noise up to a sixth of the peak',
    wave: [noise(0.166), push(5000, 1)],
    frame: 5000 + 0.249 * 20,
    noiseBound: true,
  },
  { name: 'more noise', wave: [noise(0.167), push(5000, 1)], frame: null, noiseBound: true },
  { name: 'a click of 0.06 ms before it', wave: [...flat(3, 0.5), push(5040, -1)], frame: 5042, sign: -1 },
  { name: 'a half-wave of 0.1 ms', wave: [...flat(5, 0.5), push(5040, -1)], frame: 4999.1 },
  {
    name: 'a half-wave of 0.083 ms, which rounds up to the least',
    wave: [...flat(4, 0.5), push(5040, -1)],
    frame: 4999.1,
  },
  // the peak is looked for up to 15 ms after the last place for a push, the noise in the 15 ms before the first one
  {
    name: 'a soft one, a far louder peak 14.6 ms later',
    wave: [push(5000, 0.05), push(5040, -1), spike(TRIGGER + 528 + 700, 2)],
    frame: 5042,
    sign: -1,
  },
  {
    name: 'a soft one, a far louder peak 15.2 ms later',
    wave: [push(5000, 0.05), push(5040, -1), spike(TRIGGER + 528 + 730, 2)],
    frame: 5002,
  },
  {
    name: 'a soft one, noise 14.9 ms before',
    wave: [spike(TRIGGER - 528 - 715, 0.02), push(5000, 0.05), push(5040, -1)],
    frame: 5042,
    sign: -1,
    noiseBound: true,
  },
  {
    name: 'a soft one, noise 15.1 ms before',
    wave: [spike(TRIGGER - 528 - 725, 0.02), push(5000, 0.05), push(5040, -1)],
    frame: 5002,
  },
  { name: 'silence', wave: [], frame: null },
  { name: '−80 dBFS and a little less', wave: [push(5000, 0.99e-4)], frame: null },
  { name: '−80 dBFS and a little more', wave: [push(5000, 1.01e-4)], frame: 5002 },
  { name: '11 ms after the trigger', wave: [push(TRIGGER + 520, 1)], frame: TRIGGER + 522 },
  { name: 'later than 11 ms after it', wave: [push(TRIGGER + 528, 1)], frame: null },
  { name: '11 ms before the trigger', wave: [push(TRIGGER - 528, 1)], frame: TRIGGER - 526 },
];

describe('the first arrival', () => {
  it.each(named(rows))('%s', (_, { wave, frame, sign = 1, noiseBound = false }) => {
    const arrival = arrivalOf(wave, TRIGGER);
    expect(arrival.found).toBe(frame !== null);
    expect(arrival.noiseBound).toBe(noiseBound);
    if (frame === null) return;
    expect(arrival.frame).toBeCloseTo(frame, 9);
    expect(arrival.sign).toBe(sign);
  });

  it('that isn’t there leaves nothing of the one before', () => {
    const used = arrivalOf([push(5000, 1)], TRIGGER);
    expect(arrivalOf([], TRIGGER, used)).toMatchObject({
      found: false,
      quality: 0,
      peak: 0,
      noise: 0,
      noiseBound: false,
    });
  });

  it('needs 26 ms after the trigger', () => expect(lookAheadFrames()).toBe(0.026 * RATE));

  it('tells the height of the push, how long it rises, the peak and the noise before', () => {
    const arrival = arrivalOf([noise(-0.004), push(5000, 0.4), push(5040, -0.9)], TRIGGER);
    expect(arrival.summit).toBeCloseTo(0.4, 9);
    expect(arrival.riseFrames).toBeCloseTo(18, 9);
    expect(arrival.peak).toBeCloseTo(0.9, 9);
    expect(arrival.noise).toBeCloseTo(0.004, 9);
  });
});

describe('its quality: its height over what is 2 to 0.15 ms before it', () => {
  it.each(
    named([
      { name: '0.01 one ms before', before: [spike(4954, 0.01)], quality: 100 },
      { name: '−0.03 one ms before', before: [spike(4954, -0.03)], quality: 100 / 3 },
      {
        name: 'the largest of several',
        before: [spike(4954, 0.01), spike(4964, -0.02), spike(4974, 0.005)],
        quality: 50,
      },
      { name: '1.98 ms before', before: [spike(5002 - 95, 0.01)], quality: 100 },
      { name: '0.17 ms before', before: [spike(5002 - 8, 0.01)], quality: 100 },
    ]),
  )('%s', (_, { before, quality }) => {
    const arrival = arrivalOf([...before, push(5000, 1)], TRIGGER);
    expect(arrival.frame).toBeCloseTo(5002, 9);
    expect(arrival.quality).toBeCloseTo(quality, 6);
  });

  it.each(
    named([
      { name: 'longer ago', at: 5002 - 97 },
      { name: '0.15 ms before', at: 5002 - 7 },
    ]),
  )('not what is %s', (_, { at }) =>
    expect(arrivalOf([spike(at, 0.01), push(5000, 1)], TRIGGER).quality).toBeGreaterThan(1e6),
  );

  it('is usable where a soft push stands eight times over it', () => {
    const over = (times: number): number =>
      arrivalOf([spike(4954, 0.035), push(5000, 0.035 * times), push(5040, -0.9)], TRIGGER).quality;
    expect(over(8.1)).toBeGreaterThan(LIMITS.usableQuality);
    expect(over(7.9)).toBeLessThan(LIMITS.usableQuality);
  });
});
