/** What the newest hits of one drum say, by each witness, from made-up hits. DEVELOPERS, "How an answer comes about", 5 to 9. */
import { describe, expect, it } from 'vitest';
import { named } from '../../support/rules/named';
import { addHit, arrivals, LIMITS, type MadeHit, NO_PUSH, poolOf, times, usOf } from '../../support/rules/rules';

type Witnesses = 'picks' | 'lows' | 'waves';
interface Row {
  name: string;
  hits: MadeHit[];
  sure: boolean;
  members: number;
}

/** Two of them elsewhere, and never two in a row, which would be a move. */
const mixed = (of: (us: number) => MadeHit, here: number, elsewhere: number): MadeHit[] =>
  Array.from({ length: here + elsewhere }, (_, i) => of(i % 3 === 1 && i < 3 * elsewhere ? 2000 : 1000));

const pick = (delayUs: number, quality = 16): MadeHit => ({ delayUs, quality });
const low = (lowUs: number): MadeHit => ({ ...NO_PUSH, lowUs });
const wave = (waveUs: number): MadeHit => ({ ...NO_PUSH, waveUs });
/** hits on both sides of 1 ms, one in the middle: all within 0.08 ms of that, their median deviation as told */
const spread = (of: (us: number) => MadeHit, us: number): MadeHit[] =>
  [0, ...Array.from({ length: 8 }, (_, i) => (i % 2 ? us : -us))].map((off) => of(1000 + off));
/** every second one without a push; two of those at the end where n is odd */
const half = (hit: MadeHit, n: number): MadeHit[] =>
  Array.from({ length: n }, (_, i) => (i % 2 === 0 && i < 8 ? hit : NO_PUSH));

const WITNESSES: Record<Witnesses, Row[]> = {
  // at least 4, 75 % of the weight, half of the hits, 0.05 ms
  picks: [
    { name: 'four that agree', hits: times(LIMITS.hitsNeeded), sure: true, members: 4 },
    { name: 'three that agree', hits: times(LIMITS.hitsNeeded - 1), sure: false, members: 3 },
    { name: 'six, and two elsewhere: 75 %', hits: mixed(pick, 6, 2), sure: true, members: 6 },
    { name: 'five, and two elsewhere: 71 %', hits: mixed(pick, 5, 2), sure: false, members: 5 },
    {
      name: 'six, and two with the other sign',
      hits: [...times(2, { sign: -1 }), ...times(6)],
      sure: true,
      members: 6,
    },
    // full weight from a quality of 16 on: two of 10.5 weigh 1.31 against 4
    {
      name: 'four, and two elsewhere of quality 10.5: 75.3 %',
      hits: mixed((us) => pick(us, us > 1000 ? 10.5 : 20), 4, 2),
      sure: true,
      members: 4,
    },
    {
      name: 'four, and two elsewhere of quality 10.8: 74.8 %',
      hits: mixed((us) => pick(us, us > 1000 ? 10.8 : 20), 4, 2),
      sure: false,
      members: 4,
    },
    {
      name: 'a quality of ten times the full weight counts no more',
      hits: mixed((us) => pick(us, us > 1000 ? 16 : 160), 4, 2),
      sure: false,
      members: 4,
    },
    {
      name: 'four just below the usable quality',
      hits: times(4, { quality: 7.9 }),
      sure: false,
      members: 0,
    },
    { name: 'four of the usable quality', hits: times(4, { quality: 8 }), sure: true, members: 4 },
    { name: 'four usable of eight', hits: half(pick(1000), 8), sure: true, members: 4 },
    { name: 'four usable of nine', hits: half(pick(1000), 9), sure: false, members: 4 },
    { name: 'nine that deviate by 0.045 ms', hits: spread(pick, 45), sure: true, members: 9 },
    { name: 'nine that deviate by 0.055 ms', hits: spread(pick, 55), sure: false, members: 9 },
  ],
  // the same, of hits whose low end began alone; one at least in which noise can't have hidden a softer push
  lows: [
    { name: 'four that agree', hits: times(4, low(1000)), sure: true, members: 4 },
    { name: 'three that agree', hits: times(3, low(1000)), sure: false, members: 3 },
    {
      name: 'four that did not begin alone',
      hits: times(4, { ...low(1000), lowAlone: false }),
      sure: false,
      members: 0,
    },
    { name: 'six, and two elsewhere', hits: mixed(low, 6, 2), sure: true, members: 6 },
    { name: 'five, and two elsewhere', hits: mixed(low, 5, 2), sure: false, members: 5 },
    { name: 'four of nine', hits: half(low(1000), 9), sure: false, members: 4 },
    { name: 'nine that deviate by 0.055 ms', hits: spread(low, 55), sure: false, members: 9 },
    { name: 'noise in A in all of them', hits: times(4, { ...low(1000), noiseBound: 1 }), sure: false, members: 4 },
    { name: 'noise in B in all of them', hits: times(4, { ...low(1000), noiseBound: 2 }), sure: false, members: 4 },
    {
      name: 'noise in all but one',
      hits: [low(1000), ...times(3, { ...low(1000), noiseBound: 3 })],
      sure: true,
      members: 4,
    },
    {
      name: 'the one without noise says something else',
      hits: [low(2000), ...times(4, { ...low(1000), noiseBound: 3 })],
      sure: false,
      members: 4,
    },
  ],
  // at least 4 clear ones, half of the hits, 85 % of them
  waves: [
    { name: 'four clear ones that agree', hits: times(4, wave(1000)), sure: true, members: 4 },
    { name: 'three clear ones', hits: times(3, wave(1000)), sure: false, members: 3 },
    { name: 'a rival half as high: not clear', hits: times(4, { ...wave(1000), rival: 0.5 }), sure: false, members: 0 },
    { name: 'a rival a little below half', hits: times(4, { ...wave(1000), rival: 0.49 }), sure: true, members: 4 },
    { name: 'six, and one elsewhere: 86 %', hits: mixed(wave, 6, 1), sure: true, members: 6 },
    { name: 'five, and one elsewhere: 83 %', hits: mixed(wave, 5, 1), sure: false, members: 5 },
    { name: 'four clear of eight', hits: half(wave(1000), 8), sure: true, members: 4 },
    { name: 'four clear of nine', hits: half(wave(1000), 9), sure: false, members: 4 },
  ],
};

describe.each(['picks', 'lows', 'waves'] as const)('the drum’s %s', (witness) => {
  it.each(named(WITNESSES[witness]))('%s', (_, { hits, sure, members }) => {
    const { pool } = poolOf(hits);
    expect(pool[witness].sure).toBe(sure);
    expect(pool[witness].members).toBe(members);
    const marks = { picks: pool.inPick, lows: pool.inLow, waves: pool.inWave }[witness];
    expect(marks.reduce((n, m) => n + m, 0)).toBe(members);
    if (members > 0) expect(usOf(pool[witness].delay)).toBeCloseTo(1000, 6);
  });
});

describe('the hits in the running', () => {
  it('are the newest sixteen of the drum, oldest first', () => {
    const { store, pool } = poolOf(times(20));
    expect(pool.drumHits).toBe(LIMITS.poolHits);
    expect([...pool.drumSlots].map((s) => pool.serialOf(store, s))).toEqual(
      Array.from({ length: 16 }, (_, i) => 5 + i),
    );
  });

  it('keep their serials when the store has gone round', () => {
    const { store, pool } = poolOf(times(LIMITS.storedHits + 6));
    expect(pool.serialOf(store, pool.drumSlots[15])).toBe(LIMITS.storedHits + 6);
    expect(pool.serialOf(store, pool.drumSlots[0])).toBe(LIMITS.storedHits - 9);
  });

  it('are of this drum, and have an arrival worked out', () => {
    const { pool, next } = poolOf([{ drum: 1 }, {}, { drum: -1 }, {}, { drum: 1 }]);
    next({ hasArrival: false });
    expect([...pool.drumSlots.subarray(0, pool.drumHits)]).toEqual([1, 3]);
  });

  it('are those after a move that another drum has shown', () => {
    const { store, pool, next } = poolOf(times(6));
    expect(pool.forgetUpTo(store, 0, 4)).toBe(true);
    expect(next({}).drumHits).toBe(3);
    // nothing of it was left up to there, respectively nothing came since
    expect(pool.forgetUpTo(store, 0, 4)).toBe(false);
    expect(pool.forgetUpTo(store, 0, 2)).toBe(false);
    pool.evaluate(store, 0, false);
    expect(pool.drumHits).toBe(3);
    addHit(store, { drum: 1 });
    expect(pool.forgetUpTo(store, 0, 7)).toBe(true);
    expect(pool.forgetUpTo(store, 0, 8)).toBe(false);
  });
});

describe('a drum whose low end leads, and hits that a cymbal began', () => {
  const cymbal = (delayUs: number, more: MadeHit = {}): MadeHit => ({ delayUs, highLed: true, ...more });
  it.each(
    named([
      { name: 'elsewhere: left out, of two drums', hit: cymbal(1200), others: 4, out: true },
      { name: 'beginning as the others do: a sharp stroke', hit: cymbal(1079), others: 4, out: false },
      { name: '0.081 ms off: left out', hit: cymbal(1081), others: 4, out: true },
      {
        name: 'in the same place, with the other sign: left out',
        hit: cymbal(1000, { sign: -1 }),
        others: 4,
        out: true,
      },
      {
        name: 'in the same place, hardly to be seen: left out',
        hit: cymbal(1000, { quality: 7 }),
        others: 4,
        out: true,
      },
      { name: 'beginning as three others do, too few to tell: left out', hit: cymbal(1000), others: 3, out: true },
    ]),
  )('%s', (_, { hit, others, out }) => {
    const { store, pool } = poolOf([...times(others), hit], true);
    expect(pool.drumHits).toBe(out ? others : others + 1);
    expect(store.mixed[others]).toBe(out ? 1 : 0);
  });

  it('count where the low end doesn’t lead', () => {
    const { store, pool } = poolOf([...times(4), cymbal(1200)]);
    expect(pool.drumHits).toBe(5);
    expect(store.mixed[4]).toBe(0);
  });
});

describe('a move', () => {
  it('takes the hits before it out of the running, and a false alarm brings them back', () => {
    const { pool, next } = poolOf([...arrivals(...Array(8).fill(1000)), { delayUs: 1100 }]);
    expect(pool.drumHits).toBe(9);
    next({ delayUs: 1100 });
    expect([pool.drumHits, pool.oldUpTo, pool.settling]).toEqual([2, 8, true]);
    next({ delayUs: 1000 });
    expect([pool.drumHits, pool.oldUpTo, pool.steady]).toEqual([11, 0, true]);
  });

  it('is not seen, or ended, by a hit that says nothing of it', () => {
    // scattered by 20 µs, then four 70 µs later: a move from the fourth on
    const { pool, next } = poolOf(arrivals(980, 1020, 980, 1020, 1070, 1070, 1070, 1070));
    expect([pool.drumHits, pool.settling]).toEqual([4, true]);
    next(NO_PUSH);
    expect([pool.drumHits, pool.settling]).toEqual([5, true]);
    next({ delayUs: 1070 });
    expect([pool.drumHits, pool.steady]).toEqual([5, true]);
    expect(poolOf([NO_PUSH, NO_PUSH, ...times(6)]).pool.drumHits).toBe(8);
  });

  it.each(
    named([
      // half of the hits and more can be read by their first arrivals
      { name: 'the waveform of all', by: (i: number, us: number) => (i < 4 ? wave(us) : { waveUs: us }), seen: false },
      { name: 'the waveform of some', by: (i: number, us: number) => (i % 4 === 1 ? NO_PUSH : wave(us)), seen: true },
    ]),
  )('is seen, or not, by %s', (_, { by, seen }) => {
    const { pool } = poolOf(Array.from({ length: 12 }, (_, i) => by(i, i < 10 ? 1000 : 1100)));
    expect(pool.settling).toBe(seen);
  });

  it.each(
    named([
      { name: 'first arrivals', of: pick, seen: true },
      { name: 'the low end, where no first arrival can be read', of: low, seen: true },
      { name: 'the waveform, where no first arrival can be read', of: wave, seen: true },
      { name: 'the waveform, where first arrivals say otherwise', of: (us: number) => ({ waveUs: us }), seen: false },
      { name: 'the low end, where first arrivals say otherwise', of: (us: number) => ({ lowUs: us }), seen: false },
      {
        name: 'the waveform, though the low end says otherwise',
        of: (us: number) => ({ ...wave(us), lowUs: 1000 }),
        seen: true,
      },
    ]),
  )('is seen by %s', (_, { of, seen }) => {
    const { pool } = poolOf([...times(8, of(1000)), ...times(2, of(1100))]);
    expect(pool.settling).toBe(seen);
    expect(pool.drumHits).toBe(seen ? 2 : 10);
  });
});

describe('what is known of the drum', () => {
  const odd = (n: number, these: MadeHit, others: MadeHit = {}): MadeHit[] => [
    ...times(n, these),
    ...times(8 - n, others),
  ];
  it.each(
    named([
      {
        name: 'noise hides half of the first pushes',
        hits: odd(4, { hidden: true }),
        hidden: false,
        a: false,
        b: false,
      },
      { name: 'noise hides five of eight', hits: odd(5, { hidden: true }), hidden: true, a: false, b: false },
      {
        name: 'five of eight with nothing but low end in A',
        hits: odd(5, { tiltA: 42.1 }),
        hidden: false,
        a: true,
        b: false,
      },
      {
        name: 'five of eight with nothing but low end in B',
        hits: odd(5, { tiltB: 42.1 }),
        hidden: false,
        a: false,
        b: true,
      },
      { name: 'half of them', hits: odd(4, { tiltA: 50, tiltB: 50 }), hidden: false, a: false, b: false },
      { name: '42 dB', hits: odd(8, { tiltA: 42, tiltB: 42 }), hidden: false, a: false, b: false },
    ]),
  )('%s', (_, { hits, hidden, a, b }) => {
    const { pool } = poolOf(hits);
    expect([pool.hidden, pool.lowEndA, pool.lowEndB]).toEqual([hidden, a, b]);
  });

  it('are the medians of its levels and of what its attacks stand out by', () => {
    const { pool } = poolOf([-30, -10, -12].map((v) => ({ levelA: v, levelB: v - 3, snrDb: 50 + v })));
    expect([pool.levelADbfs, pool.levelBDbfs, pool.drumSnrDb]).toEqual([-12, -15, 38]);
  });

  const hidden: MadeHit = { hidden: true };
  const onTheMove = [...Array(8).fill(1000), 1030, 1050, 1070, 1090];
  it.each(
    named([
      { name: 'noise hides the pushes of four', hits: times(4, hidden), wanted: true },
      { name: 'of three', hits: times(3, hidden), wanted: false },
      { name: 'clean ones', hits: times(8), wanted: false },
      { name: 'three of eight usable', hits: [...times(3), ...times(5, NO_PUSH)], wanted: true },
      { name: 'four of eight usable', hits: [...times(4), ...times(4, NO_PUSH)], wanted: false },
      { name: 'a channel of nothing but low end', hits: times(8, { ...hidden, tiltB: 45 }), wanted: false },
      {
        name: 'a microphone on the move',
        hits: onTheMove.map((delayUs) => ({ delayUs, hidden: true })),
        wanted: false,
      },
    ]),
  )('the average is asked: %s', (_, { hits, wanted }) => expect(poolOf(hits).pool.wantsStack).toBe(wanted));

  it('is nothing once it begins anew', () => {
    const { store, pool } = poolOf([...arrivals(...Array(8).fill(1000), 1100, 1100)]);
    pool.clear();
    expect([pool.drumHits, pool.oldUpTo, pool.steady]).toEqual([0, 0, true]);
    // it sees all of them, and the move, anew
    pool.evaluate(store, 0, false);
    expect([pool.drumHits, pool.settling]).toEqual([2, true]);
  });
});
