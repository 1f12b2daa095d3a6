import { expect, test } from 'vitest';
import { matchedText } from '../../../src/ui/listen/words';

test('the gain that a version is matched with is told, what it is still softer by, and why with open mics', () => {
  expect(matchedText(null)).toBe('“Play” matches the loudness');
  expect(matchedText({ gainDb: 0, shortDb: 0 }, { isFirst: true })).toBe('0 dB');
  expect(matchedText({ gainDb: -9.3, shortDb: 0 }, { first: 'B inverted' })).toBe('as loud as “B inverted”: −9.3 dB');
  expect(matchedText({ gainDb: -9.3, shortDb: 0 }, { isRising: true })).toBe('as loud as “Now”: −9.3 dB, rising');
  expect(matchedText({ gainDb: null, shortDb: Number.POSITIVE_INFINITY }, { isLive: true })).toBe(
    'silent: nothing to match',
  );
  expect(matchedText({ gainDb: null, shortDb: 0 })).toBe('nothing to match it with');
  expect(matchedText({ gainDb: -2.4, shortDb: 0 }, { isLive: true })).toBe('as loud as “Now”: −2.4 dB');
  expect(matchedText({ gainDb: -2.4, shortDb: 0 }, { to: 'a' })).toBe('as loud as A alone: −2.4 dB');
  expect(matchedText({ gainDb: 24, shortDb: 3 })).toBe('+24.0 dB, still 3.0 dB softer than “Now”');
  expect(matchedText({ gainDb: 0, shortDb: 21.5 }, { isLive: true })).toBe(
    '21.5 dB softer than “Now” (live: not turned up)',
  );
});
