/** What open mics are turned by. */
import { expect, test } from 'vitest';
import { liveMatch } from '../../src/listen/liveGain';

const matched = (gainDb: number | null, shortDb = 0) => ({ gainDb, shortDb });

test('live, a version is turned down as matched, and never up over the first one; by how much it stays softer is told', () => {
  const now = matched(-2);
  expect(liveMatch(matched(-5), now, 0)).toEqual({ playedDb: -5, matched: matched(-5) });
  expect(liveMatch(matched(19.5, 1), now, 0)).toEqual({ playedDb: -2, matched: matched(-2, 22.5) });
  // nor is B by its trim
  expect(liveMatch(matched(3), now, 4)).toEqual({ playedDb: -6, matched: matched(-6, 9) });
  expect(liveMatch(matched(3), now, -4).playedDb).toBe(-2);
});

test('what is silent in the loop, or not measured yet, isn’t turned up either', () => {
  expect(liveMatch(matched(null), matched(-8), 0)).toEqual({ playedDb: -8, matched: matched(null) });
  expect(liveMatch(null, null, 3)).toEqual({ playedDb: -3, matched: null });
});
