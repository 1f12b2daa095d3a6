/** What the newest hits of one drum say, by each witness, from made-up hits. DEVELOPERS, "How an answer comes about", 7 to 9. */
import { describe, expect, it } from 'vitest';
import { named } from '../../support/rules/named';
import { LIMITS, type MadeHit, NO_PUSH, poolOf, times, usOf } from '../../support/rules/rules';

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
});
