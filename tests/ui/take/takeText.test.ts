/** What a take's table says in a few words. */
import { expect, test } from 'vitest';
import type { PairReport } from '../../../src/take/model';
import { stemOf } from '../../../src/take/names';
import { headOf } from '../../../src/take/report/untold';
import { laterText, toDo } from '../../../src/ui/take/takeText';
import { drumReport } from '../../take/reports';

test.for([
  [67.2, '67 cm further'],
  [-12.4, '12 cm nearer'],
  [-0.1, '0 cm'],
  [null, '–'],
] as const)('%s cm farther is “%s”', ([cm, text]) => {
  expect(laterText(cm)).toBe(text);
});

test.for([
  [{ invertB: true, delayMs: null, moveCm: null, lowDb: 4 }, 'invert: +4 dB'],
  [{ invertB: false, delayMs: 1.68, moveCm: null, lowDb: 2.5 }, 'delay 02 Snare 1.68 ms: +2.5 dB'],
  [{ invertB: true, delayMs: -0.8, moveCm: null, lowDb: null }, 'invert, delay it 0.8 ms: –'],
  [{ invertB: false, delayMs: null, moveCm: -3, lowDb: 1 }, '3 cm back: +1 dB'],
  [{ invertB: false, delayMs: 0, moveCm: null, lowDb: 0 }, 'leave'],
] as const)('what to do: %o', ([best, text]) => {
  const pair = { a: '02 Snare.wav', plan: [{ ...best, recommended: true }] } as unknown as PairReport;
  expect(toDo(pair)).toBe(text);
});

test('nothing recommended, nothing said; a drum without its own mic is compared with the first', () => {
  expect(toDo({ a: 'x', plan: [] } as unknown as PairReport)).toBeNull();
  expect(headOf(drumReport('tom', null, [{ a: 'OH', b: 'Room' }]))).toBe('OH');
  expect(stemOf('Kit.take 3.wav · 4')).toBe('Kit.take 3 · 4');
});
