import { expect, test } from 'vitest';
import { knownOf } from '../../../src/sheet/pair/known';
import { TAKEN } from '../../support/readings/taken';

const KNOWN = { delayMs: 0.1, sign: -1, uncertaintyMs: 0.02 };

test('an accepted reading is known as it is while the switches stand as they did', () => {
  expect(knownOf(TAKEN, false, false)).toEqual(KNOWN);
  expect(knownOf({ ...TAKEN, aInverted: true, bInverted: true }, true, true)).toEqual(KNOWN);
  // both pressed since: nothing between the two has changed
  expect(knownOf(TAKEN, true, true)).toEqual(KNOWN);
});

test('one switch pressed since turns it over', () => {
  expect(knownOf(TAKEN, true, false)).toEqual({ ...KNOWN, sign: 1 });
  expect(knownOf(TAKEN, false, true)).toEqual({ ...KNOWN, sign: 1 });
  expect(knownOf({ ...TAKEN, bInverted: true }, false, false)).toEqual({ ...KNOWN, sign: 1 });
  expect(knownOf({ ...TAKEN, polarity: 'same', bInverted: true }, false, false)).toEqual(KNOWN);
});

test('nothing is known of no reading, an uncertain one, or one without polarity or delay', () => {
  expect(knownOf(null, false, false)).toBeNull();
  expect(knownOf({ ...TAKEN, sure: false }, false, false)).toBeNull();
  expect(knownOf({ ...TAKEN, polarity: null }, false, false)).toBeNull();
  expect(knownOf({ ...TAKEN, delayMs: null }, false, false)).toBeNull();
});

test('an accuracy that nobody knew stays unknown', () => {
  expect(knownOf({ ...TAKEN, uncertaintyMs: null }, false, false)?.uncertaintyMs).toBeNull();
});
