import { describe, expect, test } from 'vitest';
import type { KitSheet } from '../../../src/sheet/document/model';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { inverted, read, taken, withPair } from '../../support/readings/kits';
import { DONE, start } from '../../support/readings/sheets';
import { planned, TAKEN, timing } from '../../support/readings/taken';

describe('the whole kit', () => {
  const eight = start('eight');

  test('of top and bottom the bottom is inverted, never the reference; done, nothing more is to do', () => {
    const sheet = read(eight, { 'snareTop-snareBottom': taken('inverted', 0.1, 'inverted') });
    expect(kitSystem(sheet).choice?.invert).toEqual(['snareBottom']);
    expect(kitSystem(inverted(sheet, 'snareBottom')).choice?.invert).toEqual([]);
    // as the person has it: the reference is another one
    const references = [{ drum: 'snare', microphone: 'snareBottom' }];
    expect(kitSystem({ ...sheet, references }).choice?.invert).toEqual(['snareTop']);
    // without one it is A of the drum's first pair
    expect(kitSystem({ ...sheet, references: [] }).choice?.invert).toEqual(['snareBottom']);
  });

  test('the bottom snare alone is to be inverted where everything on top agrees', () => {
    const sheet = read(eight, {
      'snareTop-snareBottom': taken('inverted', 0.1, 'inverted'),
      'snareTop-overheadLeft': taken('same', 3, 'as-is'),
      'overheadLeft-overheadRight': taken('same', 0, 'as-is'),
    });
    const { choice } = kitSystem(sheet);
    expect([choice?.invert, choice?.delays]).toEqual([['snareBottom'], []]);
    for (const { own, gets, because } of choice?.pairs ?? []) expect([gets, because]).toEqual([own, null]);
    expect(choice?.pairs.map(({ pair }) => pair).sort()).toEqual([
      'overheadLeft-overheadRight',
      'snareTop-overheadLeft',
      'snareTop-snareBottom',
    ]);
  });

  test('overheads follow the snare unless said otherwise: the kick gets what that gives, and says why', () => {
    const readings = {
      'snareTop-overheadLeft': taken('same', 3, 'as-is'),
      'kickOut-overheadLeft': taken('inverted', 4, 'inverted'),
    };
    const sheet = read(eight, readings);
    const of = (it: KitSheet, pair: string) => kitSystem(it).choice?.pairs.find((one) => one.pair === pair);
    expect(kitSystem(sheet).choice?.invert).toEqual([]);
    expect(of(sheet, 'kickOut-overheadLeft')).toMatchObject({
      own: { invertB: true },
      gets: { invertB: false, lowDb: 0, allDb: 0 },
      because: { code: 'follows', microphone: 'overheadLeft', drum: 'snare' },
    });
    const kick = { ...sheet, follows: sheet.follows.map((one) => ({ ...one, drum: 'kick' })) };
    // the kick's own, which isn't its reference
    expect(kitSystem(kick).choice?.invert).toEqual(['kickOut']);
    expect(of(kick, 'kickOut-overheadLeft')).toMatchObject({ gets: { invertB: true }, because: null });
  });

  test('what was left on purpose asks for nothing, and stays as it was', () => {
    const sheet = read(eight, { 'snareTop-snareBottom': taken('inverted', 0.1, 'inverted') });
    const done = { ...DONE, leftOnPurpose: true, note: 'wanted thin' };
    const left = { ...sheet, pairs: sheet.pairs.map((pair) => ({ ...pair, done })) };
    expect(kitSystem(left).choice?.invert).toEqual([]);
    expect(kitSystem(left).choice?.pairs[0]).toMatchObject({ own: { invertB: false }, gets: { lowDb: 0, allDb: 0 } });
  });

  describe('three that can’t all have theirs', () => {
    const LATER = timing(0.9, 0.9, { delayMs: 2 });
    const three = read(start('four'), {
      'overheadLeft-overheadRight': taken('same', 0.1, 'as-is'),
      'snareTop-overheadLeft': taken('same', 3, 'as-is'),
      // inverted it would gain some 1.7 dB, delayed with both left a little less
      'snareTop-overheadRight': taken(
        'inverted',
        3.1,
        'inverted',
        planned(timing(-0.2, -0.2), timing(0.15, 0.15, { delayMs: 2 })),
      ),
    });

    test('the weakest gives way, and gets the best that goes with its switch, whole', () => {
      const { choice } = kitSystem(three);
      expect([choice?.invert, choice?.delays]).toEqual([[], []]);
      const weak = choice?.pairs.find(({ pair }) => pair === 'snareTop-overheadRight');
      expect(weak?.own).toMatchObject({ invertB: true, delayMs: null });
      // its delay goes with the others' alignment, which stays: what it gets then is known
      expect(weak?.gets).toMatchObject({ invertB: false, delayMs: null, lowDb: 0, allDb: 0 });
      expect(weak?.because).toMatchObject({ code: 'pair', inverted: false });
      expect(['snareTop-overheadLeft', 'overheadLeft-overheadRight']).toContain(
        weak?.because?.code === 'pair' && weak.because.pair,
      );
    });

    test('louder gains count more: by both figures, the smaller of them', () => {
      const loud = (low: number, all: number) =>
        kitSystem(withPair(three, 'snareTop-overheadRight', { before: { ...TAKEN, ...planned(timing(low, all)) } }))
          .choice;
      // 6 dB against 9.5: one of the others gives way
      expect(loud(-0.8, -0.8)?.invert).not.toEqual([]);
      // much in the low octave, little over all: no more than that
      expect(loud(-0.8, -0.2)?.invert).toEqual([]);
    });

    test('a delay takes along what is aligned with the delayed one; each pair has its own, whole', () => {
      const sheet = read(eight, {
        'snareTop-snareBottom': taken('inverted', 0.1, 'inverted'),
        'snareTop-overheadLeft': taken('inverted', 2, 'inverted', planned(timing(-0.4, -0.4), LATER)),
        'overheadLeft-overheadRight': taken('same', 0, 'as-is'),
      });
      const { choice } = kitSystem(sheet);
      expect(choice?.invert).toEqual(['snareBottom']);
      expect(choice?.delays).toEqual([
        { microphone: 'snareTop', delayMs: 2, pairs: ['snareTop-overheadLeft'] },
        { microphone: 'snareBottom', delayMs: 2, pairs: [] },
      ]);
      for (const { own, gets } of choice?.pairs ?? []) expect(gets).toEqual(own);
    });

    test('a delay that another pair’s alignment doesn’t leave: the pair is told what it gets', () => {
      const sheet = read(start('four'), {
        'overheadLeft-overheadRight': taken('same', 0.1, 'as-is'),
        'snareTop-overheadLeft': taken('same', 3, 'as-is', planned(timing(0, 0), timing(0.6, 0.6, { delayMs: 3 }))),
        'snareTop-overheadRight': taken(
          'same',
          3.1,
          'as-is',
          planned(timing(0, 0), timing(0.5, 0.5, { delayMs: 3.4 })),
        ),
      });
      const { choice } = kitSystem(sheet);
      expect(choice?.delays).toEqual([{ microphone: 'snareTop', delayMs: 3, pairs: ['snareTop-overheadLeft'] }]);
      expect(choice?.pairs.find(({ pair }) => pair === 'snareTop-overheadRight')).toMatchObject({
        own: { delayMs: 3.4 },
        gets: { delayMs: 3, lowDb: null, allDb: null },
        because: { code: 'delay', pair: 'snareTop-overheadLeft' },
      });
    });
  });

  test('a move that wasn’t made is none of the mix; what was put off to it is held', () => {
    const moving = planned(timing(-0.4, -0.4), timing(0.9, 0.9, { moveCm: 3 }), timing(0.8, 0.8, { delayMs: 0.1 }));
    const sheet = read(eight, { 'snareTop-snareBottom': taken('inverted', 0.1, 'inverted', moving) });
    expect(kitSystem(sheet).choice?.pairs[0]?.gets).toMatchObject({ moveCm: null, delayMs: 0.1 });
    const done = { ...DONE, later: { invertB: true, delayMs: null } };
    const later = withPair(sheet, 'snareTop-snareBottom', { done });
    expect(kitSystem(later).choice).toMatchObject({ invert: ['snareBottom'], delays: [] });
  });

  test('a reading from an older sheet, of which nothing was recommended, asks for nothing', () => {
    const old = taken('inverted', 0.1, 'inverted', { timings: [timing(-0.6, null)], plan: null });
    expect(kitSystem(read(eight, { 'snareTop-snareBottom': old })).choice).toEqual({
      invert: [],
      delays: [],
      pairs: [],
    });
  });
});
