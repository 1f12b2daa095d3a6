import { expect, test } from 'vitest';
import { SUM_PICTURE_HZ } from '../../../src/sheet/document/model';
import { FRAME, sumPath, xOf, yOf } from '../../../src/ui/print/sumPicture';

test('20 Hz to 20 kHz, −18 to +7 dB fill the frame; what lies beyond is drawn at its edge', () => {
  expect(xOf(20)).toBeCloseTo(FRAME.left, 9);
  expect(xOf(20000)).toBeCloseTo(FRAME.right, 9);
  // logarithmic: a third of the way for each decade
  expect(xOf(200)).toBeCloseTo(FRAME.left + (FRAME.right - FRAME.left) / 3, 9);
  expect(yOf(-18)).toBe(FRAME.bottom);
  expect(yOf(7)).toBe(FRAME.top);
  expect(yOf(-5.5)).toBeCloseTo((FRAME.top + FRAME.bottom) / 2, 9);
  expect(yOf(-60)).toBe(FRAME.bottom);
  expect(yOf(40)).toBe(FRAME.top);
});

test('a line breaks where there is no value', () => {
  const db = SUM_PICTURE_HZ.map((_, i) => (i === 1 || i > 3 ? null : 7));
  const [x0, x2, x3] = [0, 2, 3].map((i) => xOf(SUM_PICTURE_HZ[i] as number).toFixed(1));
  const top = FRAME.top.toFixed(1);
  expect(sumPath(db)).toBe(`M${x0} ${top}M${x2} ${top}L${x3} ${top}`);
  expect(sumPath([])).toBe('');
});
