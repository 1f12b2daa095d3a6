import { describe, expect, it } from 'vitest';
import type { ChannelPicture, HitPicture, Pictures } from '../../../src/reading/hitPictures';
import type { HitReading } from '../../../src/reading/reading';
import { pushesView, pushWindow } from '../../../src/state/views/pushesView';
import { measured, RATE, reading } from '../../advice/readings';

const channel = (push: number, arrival: number | null = 0.2): ChannelPicture => ({
  arrival,
  push,
  peak: 0.5,
  quality: 100,
  noiseBound: false,
  clipped: false,
  columns: new Float32Array([-1, 1]),
});
const picture = (serial: number, a: number, b: number): HitPicture => ({
  serial,
  a: channel(a, a === 0 ? null : 0.2),
  b: channel(b, b === 0 ? null : 0.3),
  only: null,
});
/** as they come: the newest first */
const pictures = (hits: HitPicture[], alignSamples: number | null = 0): Pictures => ({
  wish: { alignSamples, fromMs: -0.3, lengthMs: 2, closeSerial: 0, closeFromMs: -2, closeLengthMs: 8 },
  hits: hits.toReversed(),
  close: null,
});
const hit = (serial: number, fate: HitReading['fate'] = 'used', delaySamples: number | null = 12): HitReading => ({
  serial,
  timeSeconds: serial,
  delaySamples,
  polarity: 'inverted',
  fate,
  drum: null,
  levelADbfs: -10,
  levelBDbfs: -10,
  correlation: null,
  bandCorrelation: [null, null, null, null],
});

describe('the first pushes, laid on each other', () => {
  const perHit = [hit(1), hit(2, 'clipped'), hit(3), hit(4, 'used', 13)];
  const now = measured('inverted', 0, { delaySamples: 12, perHit });
  const all = [picture(1, -1, 1), picture(2, 1, -1), picture(3, -1, 1), picture(4, -1, 1)];

  it('are those of the hits used, with the way that most go', () => {
    const view = pushesView(pictures(all), now);
    expect(view?.a.map(({ serial }) => serial)).toEqual([1, 3, 4]);
    expect(view?.b.map(({ serial }) => serial)).toEqual([1, 3, 4]);
    expect([view?.aWay, view?.bWay]).toEqual([-1, 1]);
    expect(view?.foundMs).toBeCloseTo(0.25);
    expect(view?.hits.map(({ delayMs }) => delayMs)).toEqual([0.25, 0.25, (13 / RATE) * 1000]);
    expect(view?.dull).toBeNull();
  });

  it('have no way where they go both ways alike', () => {
    const view = pushesView(pictures([picture(1, 1, 1), picture(3, -1, 1)]), now);
    expect([view?.aWay, view?.bWay]).toEqual([0, 1]);
  });

  it('leave a hit out that can’t be laid at A’s arrival', () => {
    const view = pushesView(pictures([picture(1, -1, 1), picture(3, 0, 1)]), now);
    expect(view?.a.map(({ serial }) => serial)).toEqual([1]);
  });

  it('show none where a channel hears the lows only', () => {
    const lows = reading({ state: 'unclear', reason: 'lows-only-b', hits: 4, perHit: [hit(1), hit(3)] });
    const view = pushesView(pictures([picture(1, 1, 1), picture(3, 1, 1)]), lows);
    expect([view?.dull, view?.aWay, view?.bWay, view?.foundMs]).toEqual(['b', 1, 0, null]);
    expect(view?.hits).toEqual([]);
  });

  it('are none without pictures, of no hit used, or of pictures made for another page', () => {
    expect(pushesView(null, now)).toBeNull();
    expect(pushesView(pictures(all), null)).toBeNull();
    expect(pushesView(pictures([picture(2, 1, 1)]), now)).toBeNull();
    expect(pushesView(pictures(all, 12), now)).toBeNull();
    expect(pushesView(pictures(all, null), now)).toBeNull();
  });
});

describe('the window of the first pushes', () => {
  it('holds both, whichever comes first', () => {
    for (const ms of [-90, -20, -3, -1.1, -0.2, 0, 0.07, 1.02, 2.77, 20, 60]) {
      const { fromMs, lengthMs } = pushWindow(ms, null);
      expect(fromMs).toBeLessThan(Math.min(0, ms));
      // and some of the later push
      expect(fromMs + lengthMs - Math.max(0, ms)).toBeGreaterThan(0.2 * lengthMs);
    }
  });

  it('stays where it is while a microphone moves within it', () => {
    const one = pushWindow(1, null);
    expect(pushWindow(1.1, one)).toBe(one);
    expect(pushWindow(0.3, one)).toBe(one);
    expect(pushWindow(-0.05, one)).toBe(one);
    expect(pushWindow(null, one)).toBe(one);
    const wide = pushWindow(3, one);
    expect(wide.lengthMs).toBeGreaterThan(one.lengthMs);
    expect(pushWindow(1, wide)).toBe(wide);
    expect(pushWindow(0.07, wide)).toEqual(one);
    expect(pushWindow(-1, one).bFirst).toBe(true);
  });
});
