import { describe, expect, test } from 'vitest';
import { LOW_OCTAVES_HZ } from '../../../src/reading/bands';
import type { Fuller } from '../../../src/reading/codes';
import type { Polarity } from '../../../src/reading/reading';
import { type KitSheet, newMicrophone, newPair, type Pair, type Taken } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { MOST_TOGETHER, TooManyTogether } from '../../../src/sheet/network/tooManyTogether';
import { DONE } from '../../support/readings/sheets';
import { planned, TAKEN, timing, UNPLANNED } from '../../support/readings/taken';

const start = (id: string): KitSheet =>
  sheetFrom(STARTS.find((one) => one.id === id) as (typeof STARTS)[number], 'kit', 'Quay');

/** By 6 dB fuller, both in the drum's low octave and over all, or nothing known of the sum. */
const taken = (
  polarity: Polarity | null,
  delayMs: number | null,
  fuller: Fuller | null = null,
  more: Partial<Taken> = {},
): Taken => ({
  ...TAKEN,
  polarity,
  delayMs,
  agreement: 1,
  fuller,
  fullerDb: fuller ? 6 : null,
  lowCoherency: null,
  ...(fuller ? planned(timing(...(fuller === 'as-is' ? ([0.6, 0.6] as const) : ([-0.6, -0.6] as const)))) : UNPLANNED),
  ...more,
});

/** The sheet with readings put in, by pair id. */
function read(sheet: KitSheet, readings: Record<string, Taken>): KitSheet {
  for (const id of Object.keys(readings)) expect(sheet.pairs.map((pair) => pair.id)).toContain(id);
  return {
    ...sheet,
    pairs: sheet.pairs.map(
      (pair): Pair => ({
        ...pair,
        before: readings[pair.id] ?? null,
        acceptedAt: readings[pair.id] ? '2026-01-02T03:10:00Z' : null,
      }),
    ),
  };
}

const withPair = (sheet: KitSheet, id: string, change: Partial<Pair>): KitSheet => ({
  ...sheet,
  pairs: sheet.pairs.map((one) => (one.id === id ? { ...one, ...change } : one)),
});

const drumOf = (sheet: KitSheet, drum: string) => {
  const found = kitSystem(sheet).drums.find((one) => one.drum === drum);
  if (!found) throw new Error(`no ${drum}`);
  return found;
};
const inverted = (sheet: KitSheet, ...ids: string[]): KitSheet => ({
  ...sheet,
  microphones: sheet.microphones.map((one) => (ids.includes(one.id) ? { ...one, inverted: !one.inverted } : one)),
});

describe('one drum', () => {
  const four = start('four');
  const snare = {
    'overheadLeft-overheadRight': taken('same', 0.1),
    'snareTop-overheadLeft': taken('same', 3),
    'snareTop-overheadRight': taken('same', 3.1),
  };

  test('delays of its microphones against its reference; readings that agree contradict nothing', () => {
    const found = drumOf(read(four, snare), 'snare');
    const told = Object.fromEntries(found.delays.map(({ microphone, delayMs }) => [microphone, delayMs]));
    // the reference is the first pair's A
    expect(found.reference).toBe('overheadLeft');
    expect(told.snareTop).toBeCloseTo(-3, 9);
    expect(told.overheadRight).toBeCloseTo(0.1, 9);
    expect(found).toMatchObject({ contradiction: [], suspects: [], open: [], next: null });
  });

  test('three that can’t all be are named, the least sure of them first; and it is to be measured again', () => {
    const odd = { ...snare, 'snareTop-overheadRight': taken('inverted', 3.1, null, { agreement: 0.76 }) };
    const found = drumOf(read(four, odd), 'snare');
    expect([...found.contradiction].sort()).toEqual(Object.keys(snare).sort());
    expect(found.suspects[0]).toBe('snareTop-overheadRight');
    expect(found.next).toEqual({ pair: 'snareTop-overheadRight', why: 'again' });
  });

  test('delays that don’t close are named with their error', () => {
    const found = drumOf(read(four, { ...snare, 'snareTop-overheadRight': taken('same', 3.4) }), 'snare');
    expect(found.open).toHaveLength(1);
    expect(Math.abs(found.open[0]?.errorMs as number)).toBeCloseTo(0.3, 9);
    expect(found.contradiction).toEqual([]);
  });

  test('a switch that was changed since counts: the reading still says the same of the microphones', () => {
    const sheet = read(four, { ...snare, 'snareTop-overheadRight': taken('inverted', 3.1, null, { aInverted: true }) });
    expect(drumOf(sheet, 'snare').contradiction).toEqual([]);
    expect(drumOf(inverted(sheet, 'snareTop', 'overheadLeft'), 'snare').contradiction).toEqual([]);
  });

  test('an unsure reading says nothing; then the next pair is one that nothing joins yet', () => {
    const found = drumOf(read(four, { 'snareTop-overheadLeft': taken('same', 3, null, { sure: false }) }), 'snare');
    expect(found.delays.filter(({ delayMs }) => delayMs !== null)).toHaveLength(1);
    expect(found.next).toEqual({ pair: 'overheadLeft-overheadRight', why: 'joins' });
  });

  test('delays never pass from one drum to another', () => {
    const sheet = read(four, { ...snare, 'kickOut-overheadLeft': taken('inverted', 5) });
    expect(drumOf(sheet, 'kick').delays).toHaveLength(2);
    expect(drumOf(sheet, 'snare').delays.map(({ microphone }) => microphone)).not.toContain('kickOut');
    expect(drumOf(sheet, 'snare').contradiction).toEqual([]);
  });
});

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

  test('three on the kick: which to invert for the fullest low octave, once all three pairs were read', () => {
    const kit = start('eleven');
    const extra = { ...(kit.pairs[0] as Pair), id: 'third', a: 'kickIn', b: 'kickDriver' };
    const three = { ...kit, pairs: [...kit.pairs, extra] };
    const of = (re: number, run = 'run 1'): Taken =>
      taken(null, null, null, {
        lowCoherency: re,
        octaveCoherency: [null, re, -re, null],
        fullerLowHz: 88.4,
        fullerHighHz: 176.8,
        run,
        sure: false,
      });
    const two = read(three, { 'kickIn-kickOut': of(0.8), third: of(-0.6) });
    expect(kitSystem(two).groups).toEqual([
      {
        drum: 'kick',
        microphones: ['kickIn', 'kickOut', 'kickDriver'],
        missing: [['kickOut', 'kickDriver']],
        lowHz: null,
        highHz: null,
        turn: null,
        gainDb: null,
        choiceDb: null,
        differentHits: false,
      },
    ]);
    const all = read(three, { 'kickIn-kickOut': of(0.8), 'kickOut-kickDriver': of(-0.5, 'run 2'), third: of(-0.6) });
    const [group] = kitSystem(all).groups;
    expect(group).toMatchObject({ missing: [], turn: ['kickDriver'], differentHits: true });
    // by hand: 3 + 2·(0.8 + 0.5 + 0.6) over 3 + 2·(0.8 − 0.5 − 0.6)
    expect(group?.gainDb).toBeCloseTo(10 * Math.log10(6.8 / 2.4), 9);
    // no pair recommends anything: the kit's choice is to leave them
    expect(group?.choiceDb).toBeCloseTo(0, 9);
    const after = kitSystem(inverted(all, 'kickDriver')).groups[0];
    expect(after?.turn).toEqual([]);
    expect(after?.gainDb).toBeCloseTo(0, 9);
  });

  test('a group is added up in one octave: the one that most pairs call the drum’s low one, of those that all of them carry', () => {
    const kit = start('eleven');
    const extra = { ...(kit.pairs[0] as Pair), id: 'third', a: 'kickIn', b: 'kickDriver' };
    const three = { ...kit, pairs: [...kit.pairs, extra] };
    const of = (own: number, octaveCoherency: (number | null)[]): Taken =>
      taken(null, null, null, {
        lowCoherency: octaveCoherency[own] as number,
        octaveCoherency,
        fullerLowHz: LOW_OCTAVES_HZ[own] as number,
        fullerHighHz: 2 * (LOW_OCTAVES_HZ[own] as number),
      });
    const band = (first: Taken) =>
      kitSystem(
        read(three, {
          'kickIn-kickOut': first,
          'kickOut-kickDriver': of(1, [-0.4, -0.5, null, null]),
          third: of(1, [-0.7, -0.6, null, null]),
        }),
      ).groups[0];
    expect(band(of(0, [0.9, 0.8, null, null]))).toMatchObject({ lowHz: LOW_OCTAVES_HZ[1], turn: ['kickDriver'] });
    expect(band(of(0, [0.9, 0.8, null, null]))?.gainDb).toBeCloseTo(10 * Math.log10(6.8 / 2.4), 9);
    // one pair has nothing there: no octave that anybody calls its own is common to all
    expect(band(of(0, [null, null, 0.9, null]))).toMatchObject({ missing: [], lowHz: null, turn: null, gainDb: null });
  });

  test('an empty sheet asks for a first pair of every drum', () => {
    const system = kitSystem(start('fourteen'));
    expect(system.drums.every(({ next }) => next?.why === 'joins')).toBe(true);
    expect(system.choice).toEqual({ invert: [], delays: [], pairs: [] });
  });
});

describe('too many to compare', () => {
  /** One microphone on each drum against an overhead that hears them all. */
  const round = (drums: readonly string[]): KitSheet => {
    const pairs = drums.map(
      (drum, i): Pair => ({
        ...newPair(`p${i}`, `m${i}`, 'over', 'close-overhead', drum),
        before: taken('same', 3, 'as-is'),
        acceptedAt: 'x',
      }),
    );
    const microphones = ['over', ...drums.map((_, i) => `m${i}`)].map((id, i) => newMicrophone(id, id, '', '', `${i}`));
    return { ...start('two'), microphones, pairs, references: [], follows: [] };
  };

  test('on one drum: refused by name, up to the limit not', () => {
    expect(() => kitSystem(round(new Array(MOST_TOGETHER - 1).fill('snare')))).not.toThrow();
    expect(() => kitSystem(round(new Array(MOST_TOGETHER).fill('snare')))).toThrow(TooManyTogether);
  });

  test('over the whole kit: each drum is told, the switches aren’t', () => {
    const { drums, choice } = kitSystem(round(Array.from({ length: MOST_TOGETHER }, (_, i) => `drum ${i}`)));
    expect(choice).toBeNull();
    expect(drums).toHaveLength(MOST_TOGETHER);
    expect(drums[0]?.delays.map(({ delayMs }) => delayMs)).toEqual([0, 3]);
  });
});
