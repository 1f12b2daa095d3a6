import { expect, it } from 'vitest';
import { capital, listText, lowerFirst, numberRuns } from '../../src/text/sentence';

it.each([
  [capital('snare and top'), 'Snare and top'],
  [capital(''), ''],
  [lowerFirst('On the move'), 'on the move'],
  [listText([]), ''],
  [listText(['a']), 'a'],
  [listText(['a', 'b']), 'a and b'],
  [listText(['a', 'b', 'c']), 'a, b and c'],
])('%s reads %s', (text, expected) => {
  expect(text).toBe(expected);
});

it('numbers and their units keep together, and nothing is lost', () => {
  const text = '6 of 6 hits agree, within ±4 mm (90 %). Then bring it 2.5 cm in, −3.1 dB at 20 moments.';
  const runs = numberRuns(text);
  expect(runs.filter((_, i) => i % 2 === 1)).toEqual(['±4 mm', '(90 %)', '2.5 cm', '−3.1 dB']);
  expect(runs.join('')).toBe(text);
});
