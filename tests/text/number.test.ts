import { expect, it } from 'vitest';
import { atMost, dataNumber, fixed, orNoValue, percentText, signed, signedColumn } from '../../src/text/number';

it.each([
  [fixed(-0.04, 1), '0.0'],
  [fixed(-0.06, 1), '−0.1'],
  [fixed(12.345, 2), '12.35'],
  [signed(3.12, 1), '+3.1'],
  [signed(-3.12, 1), '−3.1'],
  [signed(0.004, 2), '0.00'],
  [signed(-0.004, 2), '0.00'],
  [signedColumn(3.12, 1), '+3.1'],
  [signedColumn(0.04, 1), '+0.0'],
  [signedColumn(-0.04, 1), '−0.0'],
  [atMost(3, 1), '3'],
  [atMost(3.46, 1), '3.5'],
  [atMost(-3.46, 1), '−3.5'],
  [atMost(-0.04, 1), '0'],
  [atMost(12.5, 0), '13'],
  [orNoValue(null, String), '–'],
  [orNoValue(0, String), '0'],
  [percentText(0.635), '64 %'],
  [percentText(1), '100 %'],
])('%s reads %s', (text, expected) => {
  expect(text).toBe(expected);
});

it('gives machines plain numbers, and nothing where there is none', () => {
  expect(dataNumber(-3.21987, 2)).toBe('-3.22');
  for (const nothing of [null, undefined, Number.NaN, Number.POSITIVE_INFINITY]) expect(dataNumber(nothing)).toBe('');
});
