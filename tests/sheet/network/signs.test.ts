/** Everything against a slow recomputation over all sign assignments. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findContradictions } from '../../../src/sheet/network/contradictions';
import { searchSigns } from '../../../src/sheet/network/signSearch';
import { EXACT_TOGETHER, leastAgainst, type SignedReading } from '../../../src/sheet/network/signs';
import { type Preference, planSwitches } from '../../../src/sheet/network/switches';

const MOST = 10;

/** Every assignment of ±1 to n microphones. */
function* assignments(n: number): Generator<number[]> {
  for (let bits = 0; bits < 2 ** n; bits++)
    yield Array.from({ length: n }, (_, i) => (Math.floor(bits / 2 ** i) % 2 ? -1 : 1));
}

const isWrong = (signs: readonly number[], { a, b, sign }: SignedReading): boolean =>
  (signs[a] as number) * (signs[b] as number) !== sign;

const costOf = (signs: readonly number[], readings: readonly SignedReading[]): number =>
  readings.reduce((sum, reading) => sum + (isWrong(signs, reading) ? reading.weight : 0), 0);

const sign = fc.constantFrom<1 | -1>(1, -1);

/** Some microphones, their present signs, and readings with whole weights, so that equal means equal. */
const network = fc.integer({ min: 2, max: MOST }).chain((n) =>
  fc.record({
    present: fc.array(sign, { minLength: n, maxLength: n }),
    readings: fc.array(
      fc
        .record({
          a: fc.nat(n - 1),
          step: fc.integer({ min: 1, max: n - 1 }),
          sign,
          weight: fc.integer({ min: 1, max: 4 }),
        })
        .map(({ a, step, ...rest }): SignedReading => ({ a, b: (a + step) % n, ...rest })),
      { maxLength: 24 },
    ),
  }),
);

test('the signs that go against least, and of those the nearest to the present ones: as brute force finds them', () => {
  fc.assert(
    fc.property(network, ({ present, readings }) => {
      let least = Number.POSITIVE_INFINITY;
      let fewest = Number.POSITIVE_INFINITY;
      const costs = readings.map(() => Number.POSITIVE_INFINITY);
      for (const signs of assignments(present.length)) {
        const cost = costOf(signs, readings);
        const touched = signs.filter((s, i) => s !== present[i]).length;
        if (cost < least || (cost === least && touched < fewest)) [least, fewest] = [cost, touched];
        for (const [i, reading] of readings.entries())
          if (isWrong(signs, reading)) costs[i] = Math.min(costs[i] as number, cost);
      }
      const answer = leastAgainst(present, readings);
      expect(answer.against).toBe(least);
      expect(answer.touched).toBe(fewest);
      expect(costOf([...answer.signs], readings)).toBe(least);
      expect([...answer.signs].filter((s, i) => s !== present[i]).length).toBe(fewest);
      expect([...answer.costIfWrong]).toEqual(costs);
    }),
    { numRuns: 300 },
  );
});

describe('contradictions', () => {
  test('A–B same, B–C same, A–C inverted can’t all be', () => {
    const readings: SignedReading[] = [
      { a: 0, b: 1, sign: 1, weight: 1 },
      { a: 1, b: 2, sign: 1, weight: 1 },
      { a: 0, b: 2, sign: -1, weight: 0.5 },
    ];
    const found = findContradictions(3, readings);
    expect(found.balanced).toBe(false);
    expect([...found.cycle].sort()).toEqual([0, 1, 2]);
    // of three as likely the lightest
    expect(found.suspects[0]).toBe(2);
    expect(findContradictions(3, readings.with(2, { a: 0, b: 2, sign: 1, weight: 0.5 })).balanced).toBe(true);
  });

  test('balanced exactly if some assignment meets all readings (Harary 1953, by brute force)', () => {
    fc.assert(
      fc.property(network, ({ present, readings }) => {
        const can = [...assignments(present.length)].some((signs) => costOf(signs, readings) === 0);
        expect(findContradictions(present.length, readings).balanced).toBe(can);
      }),
      { numRuns: 200 },
    );
  });

  test('the contradiction shown is a closed path whose product is negative', () => {
    fc.assert(
      fc.property(network, ({ present, readings }) => {
        const { balanced, cycle } = findContradictions(present.length, readings);
        if (balanced) {
          expect(cycle).toEqual([]);
          return;
        }
        expect(cycle.reduce((product, i) => product * (readings[i] as SignedReading).sign, 1)).toBe(-1);
        // closed: every microphone of it is met an even number of times
        const met = new Map<number, number>();
        for (const i of cycle)
          for (const end of [(readings[i] as SignedReading).a, (readings[i] as SignedReading).b])
            met.set(end, (met.get(end) ?? 0) + 1);
        for (const times of met.values()) expect(times).toBe(2);
        expect(new Set(cycle).size).toBe(cycle.length);
      }),
      { numRuns: 200 },
    );
  });

  test('one wrong reading among all pairs of four microphones or more is found, and named first', () => {
    fc.assert(
      fc.property(
        fc
          .integer({ min: 4, max: MOST })
          .chain((n) =>
            fc.tuple(
              fc.array(sign, { minLength: n, maxLength: n }),
              fc.nat(),
              fc.array(fc.double({ min: 0.6, max: 1, noNaN: true }), { minLength: 45, maxLength: 45 }),
            ),
          ),
        ([truth, at, weights]) => {
          const readings: SignedReading[] = [];
          for (let a = 0; a < truth.length; a++)
            for (let b = a + 1; b < truth.length; b++)
              readings.push({
                a,
                b,
                sign: ((truth[a] as number) * (truth[b] as number)) as 1 | -1,
                weight: weights[readings.length] as number,
              });
          const planted = at % readings.length;
          const right = readings[planted] as SignedReading;
          const found = findContradictions(
            truth.length,
            readings.with(planted, { ...right, sign: -right.sign as 1 | -1 }),
          );
          expect(found.balanced).toBe(false);
          expect(found.suspects[0]).toBe(planted);
        },
      ),
    );
  });

  test('one wrong reading in any network is among the two likeliest, unless others explain it as lightly', () => {
    let named = 0;
    fc.assert(
      fc.property(network, fc.nat(), ({ present, readings }, at) => {
        fc.pre(readings.length > 3);
        const planted = at % readings.length;
        const made = readings.map(
          (reading, i): SignedReading => ({
            ...reading,
            sign: ((present[reading.a] as number) * (present[reading.b] as number) * (i === planted ? -1 : 1)) as
              | 1
              | -1,
          }),
        );
        const weight = (made[planted] as SignedReading).weight;
        // by brute force: all readings that belong to an explanation as light as the planted one
        const sets = [...assignments(present.length)].filter((signs) => costOf(signs, made) <= weight);
        const explained = made.filter((reading) => sets.some((signs) => isWrong(signs, reading)));
        const { balanced, suspects } = findContradictions(present.length, made);
        const contradicted = ![...assignments(present.length)].some((signs) => costOf(signs, made) === 0);
        expect(balanced).toBe(!contradicted);
        if (!contradicted || explained.length > 2) return;
        named++;
        expect(suspects.slice(0, 2)).toContain(planted);
      }),
      { numRuns: 400, seed: 4 },
    );
    expect(named).toBeGreaterThan(40);
  });
});

describe('switches over the kit', () => {
  const prefers = (drum: string, a: number, b: number, turn: 1 | -1): Preference => ({ drum, a, b, turn, weight: 1 });

  test('as few as can be: one bottom microphone rather than the three on top', () => {
    const plan = planSwitches(4, [
      prefers('snare', 0, 3, -1),
      prefers('snare', 1, 3, -1),
      prefers('snare', 2, 3, -1),
      prefers('snare', 0, 1, 1),
    ]);
    expect(plan).toEqual({ change: [3], unmet: [], ignored: [] });
  });

  test('two drums that want different things of one overhead: the drum that decides is heard', () => {
    // 0 snare, 1 kick, 2 overhead
    const preferences = [prefers('snare', 0, 2, -1), prefers('kick', 1, 2, 1), prefers('kick', 0, 1, 1)];
    expect(planSwitches(3, preferences).unmet).toHaveLength(1);
    expect(planSwitches(3, preferences, new Map([[2, 'snare']]))).toEqual({ change: [2], unmet: [], ignored: [1] });
    expect(planSwitches(3, preferences, new Map([[2, 'kick']]))).toEqual({ change: [], unmet: [], ignored: [0] });
  });

  test('a reference is turned only where nothing else does as well: all that hang together with it turn instead', () => {
    const pair = [prefers('snare', 0, 1, -1)];
    expect(planSwitches(2, pair).change).toHaveLength(1);
    expect(planSwitches(2, pair, undefined, new Set([0])).change).toEqual([1]);
    expect(planSwitches(2, pair, undefined, new Set([1])).change).toEqual([0]);
    // one against three: the three turn for the reference's sake
    const star = [1, 2, 3].map((b) => prefers('snare', 0, b, -1));
    expect(planSwitches(4, star).change).toEqual([0]);
    expect(planSwitches(4, star, undefined, new Set([0])).change).toEqual([1, 2, 3]);
    // as many references either way: as few switches as can be
    expect(planSwitches(4, star, undefined, new Set([0, 1])).change).toEqual([0]);
    // what doesn't hang together with a reference isn't touched for it
    expect(planSwitches(4, pair, undefined, new Set([3])).change).toHaveLength(1);
  });

  test('the fewest switches that meet all preferences, by brute force', () => {
    fc.assert(
      fc.property(network, ({ present, readings }) => {
        // preferences that some setting of the switches meets: `present` is it
        const preferences = readings.map(({ a, b }, i) =>
          prefers(`drum ${i % 3}`, a, b, ((present[a] as number) * (present[b] as number)) as 1 | -1),
        );
        const fewest = Math.min(
          ...[...assignments(present.length)]
            .filter((signs) =>
              preferences.every(({ a, b, turn }) => (signs[a] as number) * (signs[b] as number) === turn),
            )
            .map((signs) => signs.filter((s) => s < 0).length),
        );
        const plan = planSwitches(present.length, preferences);
        expect(plan.unmet).toEqual([]);
        expect(plan.change).toHaveLength(fewest);
        const after = present.map((_, i) => (plan.change.includes(i) ? -1 : 1));
        for (const { a, b, turn } of preferences) expect((after[a] as number) * (after[b] as number)).toBe(turn);
      }),
      { numRuns: 200 },
    );
  });
});

test('what can’t be is refused', () => {
  expect(() => leastAgainst([1, 1], [{ a: 0, b: 2, sign: 1, weight: 1 }])).toThrow(RangeError);
  expect(() => leastAgainst([1, 1], [{ a: 1, b: 1, sign: 1, weight: 1 }])).toThrow(RangeError);
});

describe('more than can be tried out one by one', () => {
  const many = fc.integer({ min: EXACT_TOGETHER + 1, max: 32 }).chain((n) =>
    fc.record({
      truth: fc.array(sign, { minLength: n, maxLength: n }),
      present: fc.array(sign, { minLength: n, maxLength: n }),
      strides: fc.constant([1, 2, 5, 7]),
    }),
  );
  /** Every microphone with four others on either side of it: no reading stands alone. */
  const readingsOf = (truth: readonly (1 | -1)[], strides: readonly number[]): SignedReading[] =>
    strides.flatMap((stride) =>
      truth.map((_, a): SignedReading => {
        const b = (a + stride) % truth.length;
        return { a, b, sign: ((truth[a] as number) * (truth[b] as number)) as 1 | -1, weight: 1 };
      }),
    );

  test('what can all be true is found so', () => {
    fc.assert(
      fc.property(many, ({ truth, present, strides }) => {
        const readings = readingsOf(truth, strides);
        const answer = leastAgainst(present, readings);
        expect(answer.against).toBe(0);
        expect(costOf([...answer.signs], readings)).toBe(0);
        expect(answer.touched).toBeLessThanOrEqual(truth.length / 2);
        // a wrong one breaks the seven others of either of its microphones at the cheapest
        expect([...answer.costIfWrong].every((cost) => cost > 0)).toBe(true);
      }),
      { numRuns: 50 },
    );
  });

  test('three readings that are wrong are found, and are the suspects', () => {
    fc.assert(
      fc.property(many, fc.nat(1000), ({ truth, strides }, seed) => {
        const n = truth.length;
        const wrong = [seed % n, n + ((seed + 5) % n), 2 * n + ((seed + 11) % n)];
        const readings = readingsOf(truth, strides).map((reading, i) =>
          wrong.includes(i) ? { ...reading, sign: -reading.sign as 1 | -1 } : reading,
        );
        const answer = leastAgainst(new Int8Array(n).fill(1), readings);
        expect(answer.against).toBe(3);
        const { suspects } = findContradictions(n, readings);
        expect(suspects.slice(0, 3).sort((p, q) => p - q)).toEqual(wrong.sort((p, q) => p - q));
      }),
      { numRuns: 50 },
    );
  });

  test('the search finds what trying all finds, on networks small enough to try', () => {
    let missed = 0;
    let all = 0;
    fc.assert(
      fc.property(network, ({ present, readings }) => {
        const n = present.length;
        const joint = Array.from({ length: n }, () => new Float64Array(n));
        for (const { a, b, sign: s, weight } of readings)
          for (const [i, j] of [
            [a, b],
            [b, a],
          ] as const) {
            const row = joint[i] as Float64Array;
            row[j] = (row[j] as number) + s * weight;
          }
        const found = searchSigns(joint, Int8Array.from(present));
        const best = leastAgainst(present, readings, true);
        all++;
        if (costOf([...found], readings) > best.against + 1e-9) missed++;
      }),
      { numRuns: 500, seed: 3 },
    );
    expect(all).toBe(500);
    expect(missed).toBe(0);
  });
});
