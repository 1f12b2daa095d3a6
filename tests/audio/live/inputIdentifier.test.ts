import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HOLD_SECONDS, InputIdentifier, RISE_DB } from '../../../src/audio/live/inputIdentifier';

/** Level of each input over time, 40 readings a second; returns what was named, in order, without repeats. */
function listen(stretches: [seconds: number, a: number | null, b: number | null][]): ('a' | 'b' | null)[] {
  const identifier = new InputIdentifier();
  const named: ('a' | 'b' | null)[] = [];
  let step = 0;
  for (const [seconds, a, b] of stretches) {
    for (let i = 0; i < seconds * 40; i++, step++) {
      const result = identifier.push(step / 40, a, b);
      if (named.length === 0 || named[named.length - 1] !== result) named.push(result);
    }
  }
  return named;
}

describe('which input moved', () => {
  it('names the one that is spoken into, in turn', () => {
    expect(
      listen([
        [1, -60, -62],
        [1, -30, -50],
        [1, -60, -62],
        [1, -45, -25],
        [1, -60, -62],
      ]),
    ).toEqual([null, 'a', null, 'b', null]);
  });

  it('goes by the rise over each floor: a preamp that stands 25 dB higher is not taken for the one spoken into', () => {
    // speech near A reads −40 there and −38 in the hotter B, whose floor is 25 dB higher too
    expect(
      listen([
        [1, -75, -50],
        [1, -40, -38],
      ]),
    ).toEqual([null, 'a']);
  });

  it('counts from a floor of −90 dBFS when an input is digitally silent', () => {
    expect(
      listen([
        [1, null, null],
        [1, -40, null],
        [1, null, null],
        [1, null, -60],
      ]),
    ).toEqual([null, 'a', null, 'b']);
  });

  it('names none while both rise alike: someone speaks between the two, or the drum is struck', () => {
    expect(
      listen([
        [1, -60, -60],
        [3, -30, -35],
      ]),
    ).toEqual([null]);
  });

  it('tells that it is in both alike after a second of it, in all, until it listens anew', () => {
    const identifier = new InputIdentifier();
    let step = 0;
    const hear = (seconds: number, a: number, b: number): boolean => {
      for (let i = 0; i < seconds * 40; i++) identifier.push(step++ / 40, a, b);
      return identifier.alike;
    };
    expect(hear(1, -60, -60)).toBe(false);
    expect(hear(0.6, -30, -35)).toBe(false);
    expect(hear(0.5, -60, -60)).toBe(false);
    expect(hear(0.6, -30, -35)).toBe(true);
    identifier.reset();
    expect(identifier.alike).toBe(false);
    // close to one of them
    expect(hear(1, -60, -60) || hear(3, -25, -45)).toBe(false);
  });

  it('needs the rise to last: a knock is nothing', () => {
    const knock = HOLD_SECONDS - 0.1;
    expect(
      listen([
        [1, -60, -60],
        [knock, -20, -60],
        [0.3, -60, -60],
        [knock, -60, -20],
        [0.3, -60, -60],
      ]),
    ).toEqual([null]);
  });

  it('finds the floor when someone speaks from the start', () => {
    expect(
      listen([
        [1, -30, -60],
        [0.5, -65, -66],
        [1, -30, -60],
      ]),
    ).toEqual([null, 'a']);
  });

  it('begins again when time steps back or after a reset', () => {
    const identifier = new InputIdentifier();
    for (let i = 0; i < 80; i++) identifier.push(i / 40, i < 40 ? -60 : -20, -60);
    expect(identifier.push(2, -20, -60)).toBe('a');
    expect(identifier.push(0, -20, -60)).toBe(null);
    identifier.reset();
    expect(identifier.push(9, -20, -60)).toBe(null);
  });

  it('does not bridge a break in the readings', () => {
    const identifier = new InputIdentifier();
    for (let i = 0; i < 40; i++) identifier.push(i / 40, -60, -60);
    expect(identifier.push(1, -20, -60)).toBe(null);
    expect(identifier.push(3, -20, -60)).toBe(null);
  });

  it('never names an input that did not stand out over the other by the least rise, and mirrors', () => {
    const level = fc.oneof(fc.constant(null), fc.double({ min: -110, max: 6, noNaN: true }));
    fc.assert(
      fc.property(fc.array(fc.tuple(level, level, fc.integer({ min: 1, max: 40 })), { maxLength: 12 }), (stretches) => {
        const one = new InputIdentifier();
        const mirrored = new InputIdentifier();
        let floorA = 99;
        let floorB = 99;
        let step = 0;
        for (const [a, b, count] of stretches) {
          for (let i = 0; i < count; i++, step++) {
            floorA = Math.min(floorA, Math.max(-90, a ?? -90));
            floorB = Math.min(floorB, Math.max(-90, b ?? -90));
            const named = one.push(step / 40, a, b);
            const other = mirrored.push(step / 40, b, a);
            expect(other).toBe(named === null ? null : named === 'a' ? 'b' : 'a');
            // the floor that the identifier uses is never below the lowest level heard
            if (named === 'a') expect(Math.max(-90, a ?? -90) - floorA).toBeGreaterThanOrEqual(RISE_DB);
            if (named === 'b') expect(Math.max(-90, b ?? -90) - floorB).toBeGreaterThanOrEqual(RISE_DB);
          }
        }
      }),
    );
  });
});
