import { describe, expect, it } from 'vitest';
import { ClipLog } from '../../../src/dsp/hit/clipLog';
import {
  CORRELATE,
  CORRELATE_FAR,
  HitQueue,
  LOOK_FAR,
  PICK,
  PICK_LOW,
  PRINT,
  SUM,
} from '../../../src/dsp/hit/hitQueue';

describe('the hits under way', () => {
  it('go through their stages one by one, the oldest leaving first', () => {
    const queue = new HitQueue();
    for (const serial of [7, 8, 9]) queue.add(serial);
    const stages = [PICK, PICK_LOW, PRINT, CORRELATE, LOOK_FAR, CORRELATE_FAR, SUM, SUM + 1];
    for (const stage of stages) {
      expect(queue.stage(0)).toBe(stage);
      queue.advance(0);
    }
    queue.advance(2);
    queue.shift();
    expect(queue.count).toBe(2);
    expect([0, 1].map((i) => [queue.serial(i), queue.stage(i)])).toEqual([
      [8, PICK],
      [9, PICK_LOW],
    ]);
  });

  it('go on to their sums at once where there is no far reach', () => {
    const queue = new HitQueue();
    queue.add(3);
    queue.add(4);
    queue.skipTo(1, SUM);
    expect([queue.stage(0), queue.stage(1)]).toEqual([PICK, SUM]);
  });

  it('are eight at most, and a place that was left begins anew', () => {
    const queue = new HitQueue();
    for (let serial = 1; serial <= 8; serial++) {
      expect(queue.full).toBe(false);
      queue.add(serial);
    }
    expect(queue.full).toBe(true);
    queue.advance(0);
    queue.clear();
    queue.add(30);
    expect([queue.count, queue.serial(0), queue.stage(0)]).toEqual([1, 30, PICK]);
  });
});

describe('the clip log', () => {
  const log = (x: number[], frame = 100): ClipLog => {
    const clips = new ClipLog();
    clips.note(Float64Array.from(x), frame, x.length);
    return clips;
  };

  it('notes three full-scale samples in a row, of either sign, at the third', () => {
    expect(log([0, 1, -1, 1, 0]).within(103, 103)).toBe(true);
    expect(log([0, 1, -1, 1, 0]).within(104, 900)).toBe(false);
    expect(log([0, 1, -1, 0, 1, 1, 0.99]).within(0, 900)).toBe(false);
  });

  it('goes on from block to block', () => {
    const clips = log([1, 1], 0);
    expect(clips.within(0, 900)).toBe(false);
    clips.note(Float64Array.from([1, 0]), 2, 2);
    expect(clips.within(2, 2)).toBe(true);
  });
});
