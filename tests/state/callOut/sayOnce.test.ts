import { describe, expect, it } from 'vitest';
import { type Call, SayOnce, SETTLE_MS } from '../../../src/state/callOut/sayOnce';

const STEP_MS = 33;
const of = (text: string, whose = 'snare'): Call => ({ of: whose, text });

/** Each call for so many ms, a reading every 33. @returns what was said, in order */
function said(...steps: [call: Call | null, forMs: number][]): string[] {
  const once = new SayOnce();
  const all: string[] = [];
  let nowMs = 0;
  for (const [call, forMs] of steps)
    for (const end = nowMs + forMs; nowMs < end; nowMs += STEP_MS) {
      const text = once.feed(call && { ...call }, nowMs);
      if (text !== null) all.push(text);
    }
  return all;
}

describe('the voice', () => {
  it('says an answer once, when it has stood', () => {
    expect(said([of('Leave it'), SETTLE_MS - 2 * STEP_MS])).toEqual([]);
    expect(said([of('Leave it'), 60_000])).toEqual(['Leave it']);
  });

  it('says the next one when it has changed, and the first again when that is the answer again', () => {
    expect(said([of('a'), 3000], [of('b'), 3000], [of('a'), 3000])).toEqual(['a', 'b', 'a']);
  });

  it('says nothing of what flickers', () => {
    const flicker: [Call, number][] = Array.from({ length: 20 }, (_, i) => [of(i % 2 === 0 ? 'a' : 'b'), 500]);
    expect(said(...flicker)).toEqual([]);
    expect(said([of('a'), 3000], ...flicker)).toEqual(['a']);
  });

  it('doesn’t repeat itself after a time in which nothing held', () => {
    expect(said([of('a'), 3000], [null, 5000], [of('a'), 3000])).toEqual(['a']);
    expect(said([of('a'), 3000], [null, 5000], [of('b'), 3000])).toEqual(['a', 'b']);
  });

  it('of a stretch that is broken off the time counts from the beginning', () => {
    expect(said([of('a'), 1000], [null, 33], [of('a'), 1000])).toEqual([]);
  });

  it('says the same words of another pair, drum or beginning', () => {
    expect(said([of('a', 'snare'), 3000], [of('a', 'tom'), 3000])).toEqual(['a', 'a']);
  });
});
