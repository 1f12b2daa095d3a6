import { expect, test } from 'vitest';
import { matchedText, matchedWithText } from '../../../src/ui/listen/words';

test('the gain that a version is matched with is told, what it is still softer by, and why with open mics', () => {
  expect(matchedText(null)).toBe('not matched yet');
  expect(matchedText({ gainDb: -9.3, shortDb: 0 }, false, true)).toBe('matched: −9.3 dB, rising');
  expect(matchedText({ gainDb: null, shortDb: Number.POSITIVE_INFINITY }, true)).toBe('silent: nothing to match');
  expect(matchedText({ gainDb: null, shortDb: 0 })).toBe('nothing to match it with');
  expect(matchedText({ gainDb: -2.4, shortDb: 0 }, true)).toBe('matched: −2.4 dB');
  expect(matchedText({ gainDb: 24, shortDb: 3 })).toBe('matched: +24.0 dB, still 3.0 dB softer');
  expect(matchedText({ gainDb: 0, shortDb: 21.5 }, true)).toBe('matched: 0 dB (live: not turned up, 21.5 dB softer)');
  expect([matchedWithText(), matchedWithText('a')]).toEqual(['“Now”', 'A alone']);
});
