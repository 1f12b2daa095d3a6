/** Switches and delays chosen together: by the delays that are really set, every gain known, every loss with its reason. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gainDb } from '../../../src/advice/plan/alternatives';
import { type KitSheet, newMicrophone, newPair, type Pair, type Taken } from '../../../src/sheet/document/model';
import type { PairInKit } from '../../../src/sheet/kit/kitChoice';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { sheetCsv } from '../../../src/sheet/print/csv';
import { handOver } from '../../../src/sheet/print/handOver';
import { parse } from '../../support/readings/csvRows';
import { DONE, start } from '../../support/readings/sheets';
import { curved, type Gamma, planned, TAKEN, timing } from '../../support/readings/taken';

const AT = '2026-01-02T03:10:00Z';

/** Snare top, overhead left and right, and what was read of each two. */
function kitOf(left: Taken, right: Taken, both: Taken): KitSheet {
  const pair = (id: string, a: string, b: string, before: Taken): Pair => ({
    ...newPair(id, a, b, 'close-overhead', 'snare'),
    before,
    acceptedAt: AT,
  });
  return {
    ...start('two'),
    microphones: [
      newMicrophone('top', 'Snare top', 'snare', 'top', '1'),
      newMicrophone('left', 'OH L', '', '', '2'),
      newMicrophone('right', 'OH R', '', '', '3'),
    ],
    pairs: [
      pair('top-left', 'top', 'left', left),
      pair('top-right', 'top', 'right', right),
      pair('left-right', 'left', 'right', both),
    ],
    references: [{ drum: 'snare', microphone: 'top' }],
    follows: [],
  };
}

const choiceOf = (sheet: KitSheet) => {
  const { choice } = kitSystem(sheet);
  if (!choice) throw new Error('not worked out');
  return choice;
};

describe('a switch that only goes with a delay is never turned without it', () => {
  const still: Partial<Taken> = planned(timing(0.05, 0.05));
  const withDelay: Partial<Taken> = planned(timing(0.3, 0.3), timing(-0.9, -0.8, { delayMs: 1 }));
  const sheet = kitOf({ ...TAKEN, ...still }, { ...TAKEN, ...withDelay }, { ...TAKEN, ...still });

  test('the triangle whose third pair would no longer be known: all is left, and it is said why', () => {
    const { invert, delays, pairs } = choiceOf(sheet);
    expect([invert, delays]).toEqual([[], []]);
    for (const { gets } of pairs) expect([gets.lowDb, gets.allDb]).toEqual([0, 0]);
    // by hand: 10·lg(1.9/1.3) and 10·lg(1.8/1.3)
    expect(handOver(sheet).inTheMix.pays).toEqual([
      expect.stringMatching(
        /^Snare top → OH R \(snare\): ±0 dB .* and ±0 dB .*, instead of \+1\.5 dB with the plan for this pair alone \(invert OH R and delay Snare top by 1 ms \(48 samples\)\), because what \S.* → \S.* would gain then is unknown\.$/,
      ),
    ]);
  });
});

describe('one figure of a pair isn’t known', () => {
  const half = (low: number | null, all: number | null): Partial<Taken> => {
    const level = (re: number | null): number | null => (re === null ? null : 10 * Math.log10(1 + re));
    const minus = (re: number | null): number | null => (re === null ? null : -re);
    const [asIs, inverted] = [
      { ...timing(0, 0).asIs, lowDb: level(low), allDb: level(all) },
      { ...timing(0, 0).inverted, lowDb: level(minus(low)), allDb: level(minus(all)) },
    ];
    return planned({ ...timing(0, 0), asIs, inverted });
  };
  const kit = (third: Partial<Taken>): KitSheet =>
    kitOf({ ...TAKEN, ...half(0.5, 0.5) }, { ...TAKEN, ...half(-0.07, -0.07) }, { ...TAKEN, ...third });

  test('a loss of the other one counts whole: 9.5 dB aren’t paid for 0.6', () => {
    // by hand: 10·lg(1.8/0.2) = 9.5 dB lost, 10·lg(1.07/0.93) = 0.6 dB gained
    expect(choiceOf(kit(half(0.8, null))).invert).toEqual([]);
    expect(choiceOf(kit(half(null, 0.8))).invert).toEqual([]);
  });

  test('nothing known of it leaves the others theirs', () => {
    expect(choiceOf(kit(half(null, null))).invert).toEqual(['right']);
  });
});

/** One that falls off round the arrival, so that it is best there: with the sign of what is met. */
const bump =
  (atMs: number, size: number, widthMs: number, hz: number): Gamma =>
  (ms) =>
    size * Math.cos((2 * Math.PI * hz * (ms - atMs)) / 1000) * Math.exp(-(((ms - atMs) / widthMs) ** 2));

describe('two overheads that lie 2 ms and 1 ms behind the snare', () => {
  const left = curved(2, bump(2, 0.7, 6, 200), bump(2, 0.6, 2, 400), [2]);
  const right = curved(1, bump(1, 0.8, 6, 200), bump(1, 0.6, 2, 400), [1]);

  test('three delays that add up: each has its own, whole', () => {
    const both = curved(-1, bump(-1, 0.9, 6, 200), bump(-1, 0.7, 2, 400), [-1]);
    const { delays, pairs } = choiceOf(kitOf(left, right, both));
    expect(delays.map(({ microphone, delayMs }) => [microphone, delayMs])).toEqual([
      ['top', 2],
      ['right', 1],
    ]);
    for (const { own, gets } of pairs) expect(gets).toBe(own);
  });

  test('the overheads are left as they stand between them: what the pair loses is known, and why', () => {
    // fuller as they stand than at any delay that the meter offered
    const both = curved(-0.9, bump(0, 0.9, 6, 200), bump(0, 0.9, 0.5, 400), [-0.9]);
    const sheet = kitOf(left, right, both);
    const { pairs } = choiceOf(sheet);
    for (const { gets } of pairs) expect([gets.lowDb, gets.allDb]).not.toContain(null);
    const printed = [...handOver(sheet).inTheMix.pays, ...handOver(sheet).pairs.map(({ line }) => line)].join('\n');
    expect(printed).not.toMatch(/known/);
    expect(printed).toMatch(/because/);
  });

  test('on a sheet from before version 4 no delay is set by which a gain would no longer be known', () => {
    const old = (taken: Taken): Taken => ({ ...taken, sumByDelay: null });
    const both = old(curved(-1, bump(0, 0.9, 6, 200), bump(0, 0.9, 2, 400)));
    for (const { gets, own, because } of choiceOf(kitOf(old(left), old(right), both)).pairs) {
      expect([gets.lowDb, gets.allDb]).not.toContain(null);
      expect(because === null).toBe(gets === own);
    }
  });
});

describe('whatever was measured', () => {
  const gamma = fc
    .record({
      atMs: fc.integer({ min: -40, max: 40 }).map((x) => x / 10),
      size: fc.integer({ min: -95, max: 95 }).map((x) => x / 100),
      hz: fc.integer({ min: 90, max: 700 }),
      offMs: fc.integer({ min: -30, max: 30 }).map((x) => x / 100),
    })
    .map(({ atMs, size, hz, offMs }) => {
      const [low, all] = [bump(atMs + offMs, size, 6, hz), bump(atMs, 0.8 * size, 2, 2 * hz)];
      return curved(atMs, low, all, Math.abs(atMs) < 0.06 ? [] : [atMs]);
    });
  const what = fc.option(fc.constantFrom({ ...DONE, leftOnPurpose: true, note: 'wanted' }), { nil: null, freq: 6 });
  const kits = fc
    .tuple(
      fc.array(fc.tuple(fc.nat(5), fc.nat(5), fc.constantFrom('snare', 'kick'), gamma, what, fc.boolean()), {
        minLength: 1,
        maxLength: 9,
      }),
      fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
      fc.option(fc.nat(5), { nil: null }),
    )
    .map(([drawn, switches, wide]): KitSheet => {
      const pairs = drawn.flatMap(([a, b, drum, before, done, bInverted], i): Pair[] =>
        a === b
          ? []
          : [
              {
                ...newPair(`p${i}`, `m${a}`, `m${b}`, 'other', drum),
                before: { ...before, bInverted },
                done,
                acceptedAt: AT,
              },
            ],
      );
      const microphones = switches.map((on, i) => ({
        ...newMicrophone(`m${i}`, `M${i}`, '', '', `${i}`),
        inverted: on,
      }));
      const follows = wide === null ? [] : [{ microphone: `m${wide}`, drum: 'snare' }];
      return { ...start('two'), microphones, pairs, references: [], follows };
    });

  /** The objective, written apart: what a pair loses of its own gain; of a pair that follows another drum, of the best that goes with its switch. */
  const loses = (sheet: KitSheet, { pair: id, plan, own, gets }: PairInKit, got = gets): number => {
    const pair = sheet.pairs.find((one) => one.id === id) as Pair;
    const asked = !sheet.follows.some(
      ({ microphone, drum }) => drum !== pair.drum && [pair.a, pair.b].includes(microphone),
    );
    const aim = asked || own.invertB === got.invertB ? gainDb(own) : null;
    if (got === own || (got.invertB === own.invertB && got.delayMs === own.delayMs)) return 0;
    if (plan.leftOnPurpose) return 1000;
    if (aim === null) return 0;
    const gain = gainDb(got);
    return gain === null ? 100 : Math.max(0.1, aim - gain);
  };

  test('what is handed over is never worse than leaving all as it is', () => {
    fc.assert(
      fc.property(kits, (sheet) => {
        if (sheet.follows.length > 0) return;
        const { pairs } = choiceOf(sheet);
        const left = { invertB: false, delayMs: null, moveCm: null, lowDb: 0, allDb: 0, bandsDb: [] };
        const [handed, leaving] = [pairs.map((one) => loses(sheet, one)), pairs.map((one) => loses(sheet, one, left))];
        const sum = (all: number[]): number => all.reduce((x, y) => x + y, 0);
        expect(sum(handed)).toBeLessThan(sum(leaving) + 1e-3);
      }),
      { numRuns: 150, endOnFailure: true },
    );
  });

  test('each gain that is printed is that of its curve, for what is printed of its two microphones; who pays is told why', () => {
    fc.assert(
      fc.property(kits, (sheet) => {
        const { invert, delays, pairs } = choiceOf(sheet);
        const told = handOver(sheet);
        const [head, ...rows] = parse(sheetCsv(sheet).slice(1)) as [string[], ...string[][]];
        const lateMs = (id: string): number => delays.find((one) => one.microphone === id)?.delayMs ?? 0;
        for (const one of pairs) {
          const pair = sheet.pairs.find(({ id }) => id === one.pair) as Pair;
          const { sumByDelay, timings, bInverted } = pair.before as Taken;
          if (!sumByDelay) throw new Error('no curve');
          const now = (id: string): boolean => sheet.microphones.find((it) => it.id === id)?.inverted === true;
          const then = now(pair.a) !== (now(pair.b) !== bInverted);
          const sign = then !== (invert.includes(pair.a) !== invert.includes(pair.b)) ? -1 : 1;
          const byMs = lateMs(pair.a) - lateMs(pair.b);
          const { gets } = one;
          // by hand from the curve, between its points by a straight line
          const from = (byMs - sumByDelay.fromMs) / sumByDelay.stepMs;
          const re = (curve: number[] | null): number => {
            const k = Math.floor(from);
            const [x, y] = [curve?.[k] as number, curve?.[k + 1] as number];
            return x + (from - k) * (y - x);
          };
          const present = then ? timings[0]?.inverted : timings[0]?.asIs;
          if (Math.abs(byMs) < 0.02) {
            const level = sign === 1 ? timings[0]?.asIs : timings[0]?.inverted;
            expect(gets.lowDb).toBeCloseTo((level?.lowDb as number) - (present?.lowDb as number), 6);
          } else if (from >= 0 && from < 120) {
            for (const [db, curve, is] of [
              [gets.lowDb, sumByDelay.low, present?.lowDb],
              [gets.allDb, sumByDelay.all, present?.allDb],
            ] as const) {
              const power = 1 + sign * re(curve);
              // deep in a notch a thousandth of Re γ is more than that
              if (power > 0.05)
                expect(Math.abs((db as number) - (10 * Math.log10(power) - (is as number)))).toBeLessThan(0.2);
            }
          } else expect(one.because).not.toBeNull();
          if (gets !== one.own) expect(one.because).not.toBeNull();
          // the spreadsheet says the same
          const row = rows[sheet.pairs.indexOf(pair)] as string[];
          const cell = (name: string): string => row[head.findIndex((title) => title.startsWith(name))] as string;
          expect(Number(cell('in the mix: delay ms'))).toBeCloseTo(byMs, 1);
          expect([cell('in the mix: invert A'), cell('in the mix: invert B')]).toEqual(
            [pair.a, pair.b].map((id) => (invert.includes(id) ? 'yes' : 'no')),
          );
          expect(cell('gain in the drum')).toBe(gets.lowDb === null ? '' : String(Number(gets.lowDb.toFixed(1))));
          const line = told.pairs.find(({ id }) => id === pair.id)?.line ?? '';
          if (cell('the plan in words') !== 'left as it is on purpose')
            expect(line).toContain(cell('the plan in words'));
        }
        for (const sentence of told.inTheMix.pays) expect(sentence).toMatch(/, because \S/);
      }),
      { numRuns: 150, endOnFailure: true },
    );
  });
});
