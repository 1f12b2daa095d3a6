/** The drums that are heard: what becomes of hits that no drum can use, and of a move or a jump that one has seen. */
import { describe, expect, it } from 'vitest';
import { DRUM_LIMITS, DrumsFeed } from '../support/rules/drumRules';
import { named } from '../support/rules/named';
import { type MadeHit, times } from '../support/rules/rules';

const all = (dB: number): number[] => Array(16).fill(dB);
/** a drum of its own for each band; none of the first six is heard above 1 kHz */
const kinds = Array.from({ length: 16 }, (_, band) => all(0).map((_v, i) => (i === band ? 40 : 0)));
/** A stands at it: 20 dB louder there above 1 kHz than the other */
const NEAR = [40, 0, 0, 0, 0, 0, 20, 20, ...Array(8).fill(0)];
const near = (delayUs: number, more: MadeHit = {}): MadeHit => ({ print: NEAR, delayUs, ...more });
const far = (delayUs: number, more: MadeHit = {}): MadeHit => ({ print: kinds[1], delayUs, ...more });

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

describe('a jump of one drum’s delay', () => {
  /** ±3 dB by turns in the channels told */
  const other = (inA: boolean, inB: boolean, delayUs = 1500): MadeHit =>
    near(delayUs, { print: NEAR.map((v, i) => v + ((i < 8 ? inA : inB) ? (i % 2 ? 3 : -3) : 0)) });

  it('with another sound in both channels is another drum: the first keeps its hits and its answer', () => {
    const drums = new DrumsFeed().hear(...times(8, near(1000)), ...times(4, other(true, true)));
    expect(drums.drum(1)).toEqual({ delayUs: 1000, sign: 1, moved: false, hits: 8 });
    expect(drums.drum(2)).toEqual({ delayUs: 1500, sign: 1, moved: false, hits: 4 });
    expect(drums.fates).toEqual(Array(12).fill('used'));
    // by turns from now on, without a move
    drums.hear(near(1000), other(true, true), near(1000), other(true, true));
    expect([drums.drum(1).hits, drums.drum(2).hits]).toEqual([10, 6]);
  });

  it.each(
    named([
      { name: 'in A only', hit: other(true, false) },
      { name: 'in B only', hit: other(false, true) },
      { name: 'in neither', hit: other(false, false) },
    ]),
  )('with another sound %s is a move', (_, { hit }) => {
    const drums = new DrumsFeed().hear(...times(8, near(1000)), ...times(3, hit));
    expect([drums.drum(1), drums.knows(2)]).toEqual([{ delayUs: null, sign: 0, moved: true, hits: 3 }, false]);
    expect(drums.hear(hit).drum(1)).toEqual({ delayUs: 1500, sign: 1, moved: false, hits: 4 });
    expect(drums.fates).toEqual([...Array(8).fill('old'), ...Array(4).fill('used')]);
  });

  it('that is another drum is no move for the others', () => {
    const drums = new DrumsFeed().hear(...times(8, far(500)), ...times(8, near(1000)), ...times(4, other(true, true)));
    expect(drums.drum(1)).toEqual({ delayUs: 500, sign: 1, moved: false, hits: 8 });
    expect([drums.drum(2).hits, drums.drum(3).hits]).toEqual([8, 4]);
  });
});

describe('a drum that begins', () => {
  it('in another one’s place has nothing of that', () => {
    const others = kinds.slice(1, DRUM_LIMITS.slots).map((print) => ({ print }));
    // the first drum’s microphone has just moved, when it is heard no more
    const drums = new DrumsFeed().hear(...times(8, near(1000)), ...times(2, near(1100)));
    const goOn = Array.from({ length: 30 }, (_, i) => others[i % others.length] as MadeHit);
    drums.hear(...others, ...goOn, { print: kinds[10] as number[], delayUs: 500 });
    expect(drums.drum(11)).toEqual({ delayUs: null, sign: 0, moved: false, hits: 1 });
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
