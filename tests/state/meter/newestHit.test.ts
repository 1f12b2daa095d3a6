/** The time of the shown drum's newest hit, where that is long ago. */
import { beforeEach, describe, expect, it } from 'vitest';
import { NewestHit } from '../../../src/state/meter/newestHit';
import { hit } from '../../advice/hits';

const START_MS = Date.UTC(2026, 0, 2, 14, 10);

describe('the newest hit of the drum that is shown', () => {
  let newest: NewestHit;
  beforeEach(() => {
    newest = new NewestHit();
  });
  /** at these seconds of the stream, which are those of the clock too, hits of these drums are told of: [drum, seconds] */
  const at = (streamSeconds: number, drum: number | null, hits: [number | null, number][]): number | null => {
    const perHit = hits.map(([of, timeSeconds], i) => hit(i + 1, 'used', { drum: of, timeSeconds }));
    const told = newest.told({ perHit, drum, streamSeconds }, () => new Date(START_MS + streamSeconds * 1000));
    return told && (told.getTime() - START_MS) / 1000;
  };

  it('is told from 15 s after it on, and stays one and the same', () => {
    const hits: [number, number][] = [
      [1, 9],
      [1, 10],
    ];
    expect([24.9, 25, 40.3].map((now) => at(now, 1, hits))).toEqual([null, 10, 10]);
    const told = newest.told(
      { perHit: [hit(1, 'used', { timeSeconds: 10 })], drum: 1, streamSeconds: 50 },
      () => new Date(0),
    );
    // by no other clock
    expect(told?.getTime()).toBe(START_MS + 10_000);
  });

  it('is its own, whatever else is played since, also when a reading no longer tells of it', () => {
    expect(
      at(12, 1, [
        [1, 10],
        [2, 11],
      ]),
    ).toBeNull();
    expect(
      at(30, 1, [
        [1, 10],
        [2, 28],
        [null, 29],
      ]),
    ).toBe(10);
    expect(
      at(60, 1, [
        [2, 58],
        [2, 59],
      ]),
    ).toBe(10);
    expect(
      at(61, 1, [
        [2, 59],
        [1, 61],
      ]),
    ).toBeNull();
    expect(at(90, 1, [[2, 89]])).toBe(61);
  });

  it('is another one’s when another drum is shown, also one that was hit long before', () => {
    at(12, 1, [
      [1, 10],
      [2, 12],
    ]);
    expect([at(40, 1, [[3, 40]]), at(41, 2, [[3, 40]]), at(42, 3, [[3, 40]]), at(43, 1, [[3, 40]])]).toEqual([
      10,
      12,
      null,
      10,
    ]);
  });

  it('is none while no drum is shown, of a drum that wasn’t heard, and after the start anew', () => {
    expect([at(40, null, [[1, 10]]), at(41, 4, [[1, 10]])]).toEqual([null, null]);
    // drums are numbered anew
    expect(at(2, 1, [])).toBeNull();
    expect(at(60, 1, [])).toBeNull();
    at(61, 1, [[1, 30]]);
    newest.clear();
    expect(at(62, 1, [])).toBeNull();
  });
});
