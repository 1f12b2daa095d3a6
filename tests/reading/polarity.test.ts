import { expect, it } from 'vitest';
import { opposite } from '../../src/reading/polarity';

it('turned over twice is as it was', () => {
  expect(opposite('same')).toBe('inverted');
  expect(opposite('inverted')).toBe('same');
});
