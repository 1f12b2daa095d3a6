/** A drum whose delay has jumped: a microphone was moved, or the hits after it are another drum's. */
import { describe, expect, it } from 'vitest';
import { DRUM_LIMITS, Sorting } from '../../support/rules/drumRules';
import { named } from '../../support/rules/named';
import { type MadeHit, times, twice } from '../../support/rules/rules';

const plus = (print: readonly number[], more: readonly number[]): number[] => print.map((v, i) => v + more[i]);
const all = (dB: number): number[] => Array(16).fill(dB);
const SNARE = twice([10, 30, 25, 20, 5, 25, 20, 15]);
const inB = (dB: number): number[] => all(0).map((_, i) => (i < 8 ? 0 : dB));
/** a drum of its own for each band */
const kind = (k: number): MadeHit => ({ print: all(0).map((_, i) => (i === k ? 40 : 0)) });

describe('after a jump of the delay', () => {
  /** up and down by turns: so many dB RMS, the level as it was */
  const sound = (a: number, b: number): number[] => all(0).map((_, i) => (i % 2 ? 1 : -1) * (i < 8 ? a : b));
  const changed = (change: readonly number[], more: MadeHit = {}): MadeHit => ({ print: plus(SNARE, change), ...more });

  it.each(
    named([
      { name: 'the sound changed by 2.1 dB in both channels', change: sound(2.1, 2.1), other: true },
      { name: 'by 1.9 dB in A', change: sound(1.9, 4), other: false },
      { name: 'by 1.9 dB in B', change: sound(4, 1.9), other: false },
      { name: 'in A only: A was moved', change: sound(7, 0), other: false },
      { name: 'in B only: B was moved', change: sound(0, 7), other: false },
      { name: 'in the level only, in both', change: plus(all(-20), inB(8)), other: false },
      { name: 'in both, and softer', change: plus(sound(2.1, 2.1), all(-20)), other: true },
    ]),
  )('%s', (_, { change, other }) => {
    const sorting = new Sorting();
    // nothing but the jump shows that they are two
    expect(sorting.strikeAll([...times(6, { print: SNARE }), ...times(2, changed(change))])).toEqual(Array(8).fill(1));
    expect(sorting.jumped(1, 6)).toBe(other ? 2 : 0);
    const ids = Array.from({ length: 8 }, (_v, i) => sorting.idOf(i + 1));
    expect(ids).toEqual(other ? [1, 1, 1, 1, 1, 1, 2, 2] : Array(8).fill(1));
    expect(sorting.hitsOf(1)).toBe(other ? 6 : 8);
    if (other) expect(sorting.hitsOf(2)).toBe(2);
  });

  it.each(
    named([
      { name: 'one hit after it', before: 6, since: 1 },
      { name: 'one hit before it', before: 1, since: 6 },
    ]),
  )('%s is no drum', (_, { before, since }) => {
    const sorting = new Sorting();
    sorting.strikeAll([...times(before, { print: SNARE }), ...times(since, changed(sound(3, 3)))]);
    expect(sorting.jumped(1, before)).toBe(0);
  });

  it('the two are told apart by their own sound and have their own levels from then on', () => {
    const sorting = new Sorting();
    const soft = changed(plus(sound(3, 3), all(-6)), { lowUs: 1000 });
    sorting.strikeAll([...times(6, { print: SNARE }), ...times(2, soft)]);
    const [inA] = sorting.levels(1);
    expect([sorting.jumped(1, 6), sorting.led(1), sorting.led(2)]).toEqual([2, false, true]);
    expect(sorting.levels(1)[0]).toBeCloseTo(inA, 9);
    expect(sorting.levels(2)[0]).toBeLessThan(inA - 4);
    expect(sorting.strikeAll([{ print: SNARE }, soft, { print: SNARE }, soft])).toEqual([1, 2, 1, 2]);
  });

  it('with no place free they stay one', () => {
    const sorting = new Sorting();
    const others = Array.from({ length: DRUM_LIMITS.slots - 1 }, (_, k) => kind(k));
    sorting.strikeAll([...times(4, { print: SNARE }), ...others, ...times(2, changed(sound(3, 3)))]);
    expect(sorting.jumped(1, 4)).toBe(0);
    expect(sorting.hitsOf(1)).toBe(6);
  });

  it('the drum is heard last before it, when places are given up', () => {
    const sorting = new Sorting();
    sorting.strikeAll([...times(4, { print: SNARE }), ...times(30, changed(sound(3, 3)))]);
    expect(sorting.jumped(1, 4)).toBe(2);
    // eight more drums, and a ninth that has no place unless the first gives up its own: it was heard 39 hits ago
    sorting.strikeAll(Array.from({ length: 8 }, (_, k) => kind(k)));
    expect(sorting.strike(kind(8))).toBe(11);
    expect(sorting.knows(1)).toBe(false);
  });
});
