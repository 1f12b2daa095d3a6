import { describe, expect, it } from 'vitest';
import { FOLLOWING, Motion, SETTLING, STEADY } from '../../../src/dsp/delay/motion';
import { Gauss } from '../../support/sound/gauss';

const RATE = 48000;
/** 1 cm of path at 343.2 m/s, samples */
const CM = (0.01 / 343.2) * RATE;
const POOL = 16;

/** Feeds first arrivals hit by hit, as a pool does: what motion lets go is not shown to it again. */
class Feed {
  readonly motion = new Motion(RATE);
  private hits: { at: number; delay: number; sign: number }[] = [];
  private dropped: { at: number; delay: number; sign: number }[] = [];
  private time = 0;

  next(delay: number, sign = 1): Motion {
    const { motion } = this;
    this.time += 0.5;
    this.hits.push({ at: this.time, delay, sign });
    if (this.hits.length > POOL) this.hits.shift();
    motion.clear();
    for (const hit of this.hits) motion.add(hit.at, hit.delay, hit.sign);
    motion.judge();
    if (motion.undo) this.hits = [...this.dropped, ...this.hits].slice(-POOL);
    else if (motion.keep < motion.count) this.dropped = this.hits.splice(0, motion.count - motion.keep);
    return motion;
  }

  steady(hits: number, gauss: Gauss, scatter = 0.15 * CM): this {
    for (let i = 0; i < hits; i++) this.next(20 + scatter * gauss.next());
    return this;
  }
}

describe('a microphone on the move', () => {
  it.each([1, 2, 3, 4, 5])(
    'is followed from the third hit at the latest, closer … closer … there (seed %i)',
    (seed) => {
      const gauss = new Gauss(seed);
      const feed = new Feed().steady(8, gauss);
      let truth = 20;
      const shown: number[] = [];
      // 10 cm in 5 s at two hits a second
      for (let hit = 1; hit <= 10; hit++) {
        truth -= CM;
        const motion = feed.next(truth + 0.15 * CM * gauss.next());
        if (hit < 3) continue;
        expect(motion.mode, `hit ${hit}`).toBe(FOLLOWING);
        expect(Math.abs(motion.end - truth), `hit ${hit}`).toBeLessThan(1.2 * CM);
        shown.push(motion.end);
      }
      for (let i = 1; i < shown.length; i++)
        expect(shown[i] as number).toBeLessThan((shown[i - 1] as number) + 0.3 * CM);
      let rested = 0;
      while (feed.next(truth + 0.15 * CM * gauss.next()).mode !== STEADY) rested++;
      expect(rested).toBeLessThanOrEqual(5);
      expect(feed.motion.keep).toBeGreaterThanOrEqual(4);
    },
  );

  it.each([3, -3, 6])(
    'that was knocked by %i cm shows within three hits, and is read again from four that agree',
    (cm) => {
      const gauss = new Gauss(7);
      const feed = new Feed().steady(8, gauss);
      const then = (): Motion => feed.next(20 + cm * CM + 0.15 * CM * gauss.next());
      then();
      expect(then().mode).toBe(SETTLING);
      expect(then().mode).toBe(SETTLING);
      expect(then().mode).toBe(STEADY);
      expect(feed.motion.keep).toBe(4);
    },
  );

  it('whose polarity is switched is read anew', () => {
    const feed = new Feed().steady(8, new Gauss(3));
    feed.next(20, -1);
    expect(feed.next(20, -1).mode).toBe(SETTLING);
  });
});

describe('what is no move', () => {
  it('one hit far off changes nothing', () => {
    const feed = new Feed().steady(8, new Gauss(11));
    expect(feed.next(20 + 8 * CM).mode).toBe(STEADY);
    expect(feed.next(20).mode).toBe(STEADY);
    expect(feed.motion.keep).toBe(feed.motion.count);
  });

  it('two bad hits after which it is where it was are taken back', () => {
    const feed = new Feed().steady(8, new Gauss(12));
    feed.next(20 + 8 * CM);
    expect(feed.next(20 + 8 * CM).mode).toBe(SETTLING);
    const motion = feed.next(20);
    expect(motion.mode).toBe(STEADY);
    expect(motion.undo).toBe(true);
  });

  it('a player who strikes 2 cm around seldom looks like one', () => {
    let alarms = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const gauss = new Gauss(seed);
      const feed = new Feed();
      for (let hit = 0; hit < 20; hit++)
        if (feed.next(20 + 2 * CM * (2 * gauss.uniform() - 1)).mode !== STEADY) alarms++;
    }
    // of 4000 hits
    expect(alarms).toBeLessThan(200);
  });
});
