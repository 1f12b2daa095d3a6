/** The drums that are heard: what becomes of hits that no drum can use, which drum is shown, and a move that one has seen. */
import { describe, expect, it } from 'vitest';
import { DRUM_LIMITS, DrumsFeed } from '../support/rules/drumRules';
import { named } from '../support/rules/named';
import { type MadeHit, times } from '../support/rules/rules';

/** a drum of its own for each band */
const kinds = Array.from({ length: 8 }, (_, band) => Array.from({ length: 8 }, (_v, i) => (i === band ? 40 : 0)));
const near = (delayUs: number, more: MadeHit = {}): MadeHit => ({ print: kinds[0], delayUs, ...more });
const far = (delayUs: number, more: MadeHit = {}): MadeHit => ({ print: kinds[1], delayUs, levelA: -20, ...more });

describe('a hit that no drum can use', () => {
  it.each(
    named<{ name: string; hit: MadeHit; fate: string }>([
      { name: 'clipped', hit: { clipped: 1 }, fate: 'clipped' },
      { name: 'heard on one side only', hit: { oneSided: -1 }, fate: 'one-side-only' },
      { name: 'of two drums at once', hit: { mixed: true }, fate: 'two-drums' },
      { name: 'clipped, and on one side only', hit: { clipped: 2, oneSided: 1 }, fate: 'clipped' },
      { name: 'of two drums at once, on one side only', hit: { mixed: true, oneSided: 1 }, fate: 'one-side-only' },
    ]),
  )('%s', (_, { hit, fate }) => {
    const drums = new DrumsFeed().hear(...times(4, near(1000)), near(1000, hit));
    expect(drums.fates).toEqual(['used', 'used', 'used', 'used', fate]);
    expect(drums.drum(1).hits).toBe(4);
  });

  it('one drum too many: another drum', () => {
    const drums = new DrumsFeed().hear(...kinds.slice(0, DRUM_LIMITS.slots + 1).map((print) => ({ print })));
    expect(drums.fates.at(-1)).toBe('other-drum');
    expect(drums.fates.at(-2)).not.toBe('other-drum');
  });

  it('a cymbal began it, and the drum’s low end leads: of two drums', () => {
    const led = near(1000, { lowUs: 1000 });
    const drums = new DrumsFeed().hear(...times(4, led), near(1200, { highLed: true }), near(1000, { highLed: true }));
    expect(drums.fates).toEqual(['used', 'used', 'used', 'used', 'two-drums', 'used']);
  });
});

describe('the inputs are judged', () => {
  it('by clipped and one-sided hits of whatever drum', () => {
    const hits = [
      near(1000),
      far(500, { clipped: 1 }),
      near(1000, { clipped: 3 }),
      near(0, { oneSided: 1 }),
      far(0, { oneSided: -1 }),
      near(1000, { clipped: 3, hasArrival: false }),
    ];
    expect(new DrumsFeed().hear(...hits).roll).toEqual({ length: 5, clippedA: 2, clippedB: 1, onlyA: 1, onlyB: 1 });
  });

  it('by the newest sixteen', () => {
    const drums = new DrumsFeed().hear(...times(3, near(1000, { clipped: 2 })), ...times(14, near(1000)));
    expect(drums.roll).toEqual({ length: 16, clippedA: 0, clippedB: 2, onlyA: 0, onlyB: 0 });
  });
});

describe('the drum that is shown', () => {
  const both = (): DrumsFeed => new DrumsFeed().hear(...times(5, near(1000)), ...times(4, far(500)));

  it('is the loudest in A unless a person chose', () => {
    const drums = both();
    expect(drums.fates).toEqual(Array(9).fill('used'));
    expect([drums.shown, drums.chosen, drums.shownHits]).toEqual([1, false, 5]);
    expect([drums.choose(2).shown, drums.chosen, drums.shownHits]).toEqual([2, true, 4]);
    // as long as it is heard
    expect(drums.hear(...times(4, near(1000))).shown).toBe(2);
    expect([drums.choose(0).shown, drums.chosen]).toEqual([1, false]);
  });

  const loud = (more: MadeHit = {}): MadeHit => far(500, { levelA: 0, ...more });

  it('stays the one that was answered, however loud another one is that comes later', () => {
    const drums = new DrumsFeed().hear(...times(4, near(1000)), ...times(12, loud()));
    expect(drums.drum(2)).toMatchObject({ delayUs: 500, hits: 12 });
    expect([drums.shown, drums.chosen]).toEqual([1, false]);
    expect(drums.choose(2).shown).toBe(2);
    // to choose none goes back to the loudest, which is answered, and stays
    expect([drums.choose(0).shown, drums.hear(...times(12, near(1000))).shown]).toEqual([2, 2]);
  });

  it('gives way to one that is clearly louder, and was under way when it was answered', () => {
    const shownAfter = (levelA: number, before: number): boolean[] => {
      const loudOnes = times(4, loud({ levelA }));
      const drums = new DrumsFeed().hear(...loudOnes.slice(0, before), ...times(4, near(1000, { levelA: -10 })));
      const soft = drums.shown;
      return [drums.drum(soft).delayUs === 1000, drums.hear(...loudOnes.slice(before)).shown !== soft];
    };
    expect(shownAfter(-6.9, 1)).toEqual([true, true]);
    // by less than 3 dB, or not heard before
    expect(shownAfter(-7.1, 1)).toEqual([true, false]);
    expect(shownAfter(-6.9, 0)).toEqual([true, false]);
  });

  it('gives way only in the next 24 hits', () => {
    const drums = new DrumsFeed().hear(loud(), ...times(4, near(1000)), ...times(24, near(1000)), ...times(6, loud()));
    expect(drums.shown).toBe(2);
  });

  it('is never turned back to one with fewer hits while they are counted', () => {
    const drums = new DrumsFeed();
    const turns = [near(1000), loud(), loud(), near(1000), near(1000), loud()];
    const shown = turns.map((hit) => drums.hear(hit).shown);
    expect(shown).toEqual([1, 1, 2, 2, 1, 1]);
    expect(drums.hear(loud()).shown).toBe(2);
  });

  it('that was never answered gives way to one that is, unless it is clearly softer', () => {
    const mute = (levelA: number): MadeHit => ({ print: kinds[0], delayUs: Number.NaN, levelA });
    for (const [levelA, shown] of [
      [-18, 2],
      [-16, 1],
    ] as const) {
      const drums = new DrumsFeed().hear(...times(5, mute(levelA)), ...times(3, far(500)));
      expect(drums.shown).toBe(1);
      expect(drums.hear(far(500)).shown).toBe(shown);
    }
  });

  it('is the loudest where the chosen one isn’t known, or is gone', () => {
    const drums = both();
    expect([drums.choose(9).shown, drums.chosen]).toEqual([1, false]);
    drums.choose(2);
    // six others, and a seventh when it has not been heard for long
    drums.hear(...kinds.slice(2, 6).map((print) => ({ print, levelA: -30 })), ...times(33, near(1000)), {
      print: kinds[6],
    });
    expect([drums.shown, drums.chosen]).toEqual([1, false]);
  });

  it('is none before the first hit, and after the start anew', () => {
    expect([new DrumsFeed().shown, new DrumsFeed().shownHits]).toEqual([0, 0]);
    const drums = both()
      .hear(...[1, 2].map((clipped) => near(1000, { clipped })))
      .choose(2);
    drums.hear(near(1000, { oneSided: 1 }), near(1000, { oneSided: -1 }));
    drums.clear();
    expect([drums.shown, drums.chosen, drums.shownHits]).toEqual([0, false, 0]);
    expect(drums.roll).toEqual({ length: 0, clippedA: 0, clippedB: 0, onlyA: 0, onlyB: 0 });
  });
});

describe('a move that one drum has shown', () => {
  const rested = (): DrumsFeed => new DrumsFeed().hear(...times(8, near(1000)), ...times(8, far(500)));
  const untouched = { delayUs: 500, sign: 1, moved: false, hits: 8 };
  const dropped = { delayUs: null, sign: 0, moved: true, hits: 0 };

  it.each(
    named([
      { name: '1.8 cm, three hits since: not yet known', hits: times(3, near(1053)), other: untouched },
      { name: '1.8 cm, four that agree: 53 µs', hits: times(4, near(1053)), other: dropped },
      { name: '1.6 cm: 47 µs', hits: times(4, near(1047)), other: untouched },
      { name: 'its polarity turned, in the same place', hits: times(4, near(1000, { sign: -1 })), other: dropped },
      {
        name: '1.8 cm, four that agree of six: no answer yet',
        hits: [...times(2, near(1053)), ...times(2, near(Number.NaN)), ...times(2, near(1053))],
        other: untouched,
      },
      {
        name: '1.8 cm, and two more',
        hits: [...times(2, near(1053)), ...times(2, near(Number.NaN)), ...times(4, near(1053))],
        other: dropped,
      },
      { name: 'two bad hits, and back', hits: [...times(2, near(1100)), ...times(4, near(1000))], other: untouched },
    ]),
  )('%s', (_, { hits, other }) => {
    expect(
      rested()
        .hear(...hits)
        .drum(2),
    ).toEqual(other);
  });

  it('leaves the other drum to be read from four hits of its own', () => {
    const drums = rested().hear(...times(4, near(1100)), ...times(3, far(600)));
    expect(drums.drum(2)).toEqual({ delayUs: null, sign: 0, moved: true, hits: 3 });
    expect(drums.hear(far(600)).drum(2)).toEqual({ delayUs: 600, sign: 1, moved: false, hits: 4 });
    // which is no second move for the first
    expect(drums.drum(1)).toEqual({ delayUs: 1100, sign: 1, moved: false, hits: 4 });
  });

  it('is none for the others before it has come to rest', () => {
    // scattered by 20 µs: a move of 2.4 cm shows in the fourth hit, and the fifth confirms it
    const scattered = [980, 1020, 980, 1020].map((us) => near(us));
    const drums = new DrumsFeed().hear(...scattered, ...times(8, far(500)), ...times(4, near(1070)));
    expect(drums.drum(1)).toMatchObject({ moved: true, hits: 4 });
    expect(drums.drum(2)).toEqual(untouched);
    expect(drums.hear(near(1070)).drum(2)).toEqual(dropped);
  });
});

describe('a drum that begins', () => {
  it('in another one’s place has nothing of that', () => {
    const others = kinds.slice(1, 6).map((print) => ({ print, levelA: -30 }));
    // the first drum’s microphone has just moved, when it is heard no more
    const drums = new DrumsFeed().hear(...times(8, near(1000)), ...times(2, near(1100)));
    drums.hear(...others, ...times(30, others[0] as MadeHit), { print: kinds[6] as number[], delayUs: 500 });
    expect(drums.drum(7)).toEqual({ delayUs: null, sign: 0, moved: false, hits: 1 });
  });

  it('as one of two that sound alike begins anew, with its own hits', () => {
    const low = (us: number): MadeHit => near(us, { lowUs: us });
    const turns = (n: number): MadeHit[] => Array.from({ length: n }, (_, i) => low(i % 2 ? 500 : 0));
    const drums = new DrumsFeed().hear(...turns(5));
    expect(drums.drum(1).hits).toBe(5);
    // the sixth is the far one’s; the near one is worked out with its own next
    drums.hear(low(500));
    expect([drums.drum(1).hits, drums.drum(2).hits]).toEqual([0, 3]);
    drums.hear(...turns(4));
    expect(drums.drum(1)).toEqual({ delayUs: 0, sign: 1, moved: false, hits: 5 });
    expect(drums.drum(2)).toEqual({ delayUs: 500, sign: 1, moved: false, hits: 5 });
  });
});
