import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type KitSheet, newMicrophone, newPair, type Pair } from '../../../src/sheet/document/model';
import { referencesOf } from '../../../src/sheet/document/references';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { planInForce } from '../../../src/sheet/kit/pairLine';
import { sameAction } from '../../../src/sheet/pair/pairPlan';
import { inverted, read, taken, withPair } from '../../support/readings/kits';
import { DONE, start } from '../../support/readings/sheets';
import { curved, planned, TAKEN, timing } from '../../support/readings/taken';

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

    test('a delay that another pair’s alignment doesn’t leave: the pair gets another one, and what that gains is known', () => {
      // about 3 and 3.4 ms; both overheads best as they stand
      const hump =
        (atMs: number, size: number) =>
        (ms: number): number =>
          size * Math.exp(-(((ms - atMs) / 1.5) ** 2));
      const sheet = read(start('four'), {
        'overheadLeft-overheadRight': curved(0.1, hump(0, 0.9), hump(0, 0.9)),
        'snareTop-overheadLeft': curved(3, hump(3, 0.6), hump(3, 0.6), [3]),
        'snareTop-overheadRight': curved(3.4, hump(3.4, 0.5), hump(3.4, 0.5), [3.4]),
      });
      const { choice } = kitSystem(sheet);
      expect(choice?.delays).toEqual([
        { microphone: 'snareTop', delayMs: 3, pairs: ['snareTop-overheadLeft', 'snareTop-overheadRight'] },
      ]);
      const other = choice?.pairs.find(({ pair }) => pair === 'snareTop-overheadRight');
      expect(other).toMatchObject({
        own: { delayMs: 3.4 },
        gets: { invertB: false, delayMs: 3 },
        because: { code: 'delay', pair: 'snareTop-overheadLeft' },
      });
      // by hand: 10·lg((1 + 0.5·exp(−(0.4/1.5)²))/(1 + 0.5·exp(−(3.4/1.5)²)))
      const gain =
        10 * Math.log10((1 + 0.5 * Math.exp(-((0.4 / 1.5) ** 2))) / (1 + 0.5 * Math.exp(-((3.4 / 1.5) ** 2))));
      expect(other?.gets.lowDb).toBeCloseTo(gain, 2);
      expect(other?.gets.allDb).toBeCloseTo(gain, 2);
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

describe('the pair’s own plan is told only where it is what comes of the pair', () => {
  const eight = start('eight');
  const sheet = read(eight, { 'snareTop-snareBottom': taken('inverted', 0.1, 'inverted') });
  const force = (it: KitSheet) =>
    planInForce(it, kitSystem(it).choice, it.pairs.find(({ id }) => id === 'snareTop-snareBottom') as Pair);
  const plan = { invertB: true, delayMs: null, moveCm: null };

  test('it does, also with its switch pressed since', () => {
    expect(force(sheet)).toEqual(plan);
    expect(force(inverted(sheet, 'snareBottom'))).toEqual(plan);
  });

  test('left on purpose, or put off to something else: not a word of it; not accepted yet: it stands', () => {
    expect(force(withPair(sheet, 'snareTop-snareBottom', { done: { ...DONE, leftOnPurpose: true } }))).toBeNull();
    const later = { ...DONE, later: { invertB: false, delayMs: 2 } };
    expect(force(withPair(sheet, 'snareTop-snareBottom', { done: later }))).toBeNull();
    expect(force(withPair(sheet, 'snareTop-snareBottom', { acceptedAt: null }))).toEqual(plan);
    expect(force(withPair(sheet, 'snareTop-snareBottom', { before: null }))).toBeNull();
  });
});

describe('whatever kit', () => {
  const gamma = fc.integer({ min: -95, max: 95 }).map((x) => x / 100);
  const maybe = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: null });
  const drawnTiming = (delayMs: number | null, moveCm: number | null) =>
    fc.tuple(maybe(gamma), maybe(gamma)).map(([low, all]) => timing(low, all, { delayMs, moveCm }));
  const drawnTaken = fc
    .tuple(
      fc.integer({ min: -400, max: 400 }).filter((x) => Math.abs(x) > 4),
      fc.boolean(),
      fc.boolean(),
      fc.boolean(),
    )
    .chain(([cents, moves, aInverted, bInverted]) =>
      fc
        .tuple(
          fc.tuple(gamma, gamma).map(([low, all]) => timing(low, all)),
          drawnTiming(cents / 100, null),
          drawnTiming(null, moves ? 3 : -3),
        )
        .map(([now, later, move]) => ({ ...TAKEN, ...planned(now, later, move), aInverted, bInverted })),
    );
  const later = fc.record({ invertB: fc.boolean(), delayMs: maybe(fc.constantFrom(1, -2)) });
  const done = maybe(
    fc.oneof(
      later.map((it) => ({ ...DONE, later: it })),
      fc.constant({ ...DONE, leftOnPurpose: true }),
    ),
  );
  const kits = fc
    .tuple(
      fc.array(fc.tuple(fc.nat(5), fc.nat(5), fc.constantFrom('snare', 'kick'), drawnTaken, done), { maxLength: 8 }),
      fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
      maybe(fc.nat(5)),
    )
    .map(([drawn, switches, wide]): KitSheet => {
      const pairs = drawn.flatMap(([a, b, drum, before, what], i): Pair[] =>
        a === b ? [] : [{ ...newPair(`p${i}`, `m${a}`, `m${b}`, 'other', drum), before, done: what, acceptedAt: 'x' }],
      );
      const microphones = switches.map((on, i) => ({
        ...newMicrophone(`m${i}`, `M ${i}`, '', '', `${i}`),
        inverted: on,
      }));
      const follows = wide === null ? [] : [{ microphone: `m${wide}`, drum: 'snare' }];
      return { ...start('two'), microphones, pairs, references: [], follows };
    });

  test('its switches and delays, all done together, are for each pair the alternative it is told, with what that gains', () => {
    fc.assert(
      fc.property(kits, (sheet) => {
        const { choice } = kitSystem(sheet);
        if (!choice) throw new Error('not worked out');
        const lateMs = (id: string): number => choice.delays.find((one) => one.microphone === id)?.delayMs ?? 0;
        expect(Math.min(...choice.delays.map(({ delayMs }) => delayMs), 1)).toBeGreaterThan(0);
        for (const { pair: id, plan, own, gets, because } of choice.pairs) {
          const pair = sheet.pairs.find((one) => one.id === id) as Pair;
          expect(choice.invert.includes(pair.a) !== choice.invert.includes(pair.b)).toBe(gets.invertB);
          expect(lateMs(pair.a) - lateMs(pair.b)).toBeCloseTo(gets.delayMs ?? 0, 1);
          expect(gets.moveCm).toBeNull();
          // gains are told only of an alternative of the pair's own
          if (gets.lowDb !== null || gets.allDb !== null) expect(plan.alternatives).toContain(gets);
          // its own, unless something is in the way; then it is said what
          expect(because === null).toBe(sameAction(gets, own));
        }
      }),
      { numRuns: 300 },
    );
  });

  test('never a reference where the others that hang together with it do as well', () => {
    fc.assert(
      fc.property(kits, (sheet) => {
        const { choice } = kitSystem(sheet);
        const held = referencesOf(sheet);
        // whatever is turned over whole by its group would leave fewer references: no single one is turned alone with a free partner
        for (const { pair: id, gets } of choice?.pairs ?? []) {
          const { a, b } = sheet.pairs.find((one) => one.id === id) as Pair;
          const alone = sheet.pairs.filter((one) => [one.a, one.b].some((end) => end === a || end === b)).length === 1;
          if (alone && gets.invertB && held.includes(a) !== held.includes(b))
            expect(choice?.invert.includes(held.includes(a) ? a : b)).toBe(false);
        }
      }),
      { numRuns: 300 },
    );
  });
});
