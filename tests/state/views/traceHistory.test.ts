import { describe, expect, it } from 'vitest';
import type { HitReading, Reading } from '../../../src/reading/reading';
import { HISTORY_SECONDS, TraceHistory } from '../../../src/state/views/traceHistory';
import { reading } from '../../advice/readings';
import type { Flat } from '../../support/readings/flat';

const at = (streamSeconds: number, broadband: number | null, more: Partial<Flat> = {}): Reading =>
  reading({ streamSeconds, trace: { timeSeconds: streamSeconds, broadband, bands: [0.1, 0.2, 0.3, null] }, ...more });

const hit = (serial: number, timeSeconds: number, correlation: number | null, fate: HitReading['fate'] = 'used') => ({
  serial,
  timeSeconds,
  delaySamples: 1,
  polarity: 'same' as const,
  fate,
  drum: 1,
  levelADbfs: -10,
  levelBDbfs: -10,
  correlation,
  bandCorrelation: [null, 0.5, null, null],
});

describe('the trace history', () => {
  it('keeps values and nulls as they come, one line per band', () => {
    const history = new TraceHistory();
    history.push(at(1, 0.5));
    history.push(at(1.05, null));
    expect(history.times).toEqual([1, 1.05]);
    expect(history.values[0]).toEqual([0.5, null]);
    expect(history.values[4]).toEqual([null, null]);
  });

  it('draws no value in a gap, and remembers the gap', () => {
    const history = new TraceHistory();
    history.push(at(1, 0.5));
    history.push(at(1.1, 0.5, { gap: true }));
    history.push(at(1.2, 0.5, { gap: true }));
    expect(history.values[0]).toEqual([0.5, null, null]);
    expect(history.gaps).toEqual([{ fromSeconds: 1.1, toSeconds: 1.2 }]);
  });

  it('a hit counts while it is used, and when it grew old after that', () => {
    const history = new TraceHistory();
    const fates = (first: HitReading['fate'], second: HitReading['fate']) =>
      history.push(at(history.nowSeconds + 1, 0.5, { perHit: [hit(1, 0.2, 0.4, first), hit(2, 0.6, 0.3, second)] }));
    const counted = () => history.hits.map((h) => h.counted);
    fates('pending', 'pending');
    expect(counted()).toEqual([false, false]);
    fates('used', 'disagrees');
    expect(counted()).toEqual([true, false]);
    fates('old', 'old');
    expect(counted()).toEqual([true, false]);
  });

  it('breaks the line where readings were missing', () => {
    const history = new TraceHistory();
    history.push(at(1, 0.5));
    history.push(at(3, 0.6));
    expect(history.values[0]).toEqual([0.5, null, 0.6]);
  });

  it('goes on along one axis after a restart, hits of both sides apart', () => {
    const history = new TraceHistory();
    history.push(at(5, 0.5, { perHit: [hit(1, 4.5, 0.4)] }));
    history.mark('restart');
    history.push(at(0.1, 0.6, { perHit: [hit(1, 0.05, 0.9)] }));
    expect(history.nowSeconds).toBeCloseTo(5.1);
    expect(history.hits.map((h) => [h.atSeconds, h.values[0]])).toEqual([
      [4.5, 0.4],
      [5.05, 0.9],
    ]);
    expect(history.marks).toEqual([{ atSeconds: 5, kind: 'restart' }]);
  });

  it('takes a later verdict on a hit, but not the sign of an invert that came after it', () => {
    const history = new TraceHistory();
    history.push(at(5, 0.5, { perHit: [hit(1, 4.5, null, 'pending')] }));
    history.push(at(5.1, 0.5, { perHit: [hit(1, 4.5, 0.4)] }));
    expect(history.hits[0]?.values[0]).toBe(0.4);
    history.mark('invert');
    history.push(at(5.2, -0.5, { perHit: [hit(1, 4.5, -0.4, 'old')] }));
    expect(history.hits[0]?.values[0]).toBe(0.4);
    expect(history.hits[0]?.fate).toBe('old');
  });

  it('forgets what is older than the window and stays bounded', () => {
    const history = new TraceHistory();
    for (let i = 0; i < 40 * 90; i++) {
      const t = i / 40;
      history.push(at(t, 0.5, i % 40 === 0 ? { perHit: [hit(i / 40, t, 0.5)] } : {}));
    }
    const oldest = history.nowSeconds - HISTORY_SECONDS;
    expect(history.times[0]).toBeGreaterThan(oldest - 5);
    expect(history.times[0]).toBeLessThanOrEqual(oldest);
    expect(history.times.length).toBeLessThan(1000);
    expect(history.hits.every((h) => h.atSeconds >= oldest)).toBe(true);
    for (const line of history.values) expect(line.length).toBe(history.times.length);
  });

  it('clears', () => {
    const history = new TraceHistory();
    history.push(at(5, 0.5, { perHit: [hit(1, 4.5, 0.4)] }));
    history.mark('swap');
    history.clear();
    expect([history.times, history.hits, history.marks, history.gaps]).toEqual([[], [], [], []]);
    history.push(at(1, 0.5));
    expect(history.times).toEqual([1]);
  });
});
