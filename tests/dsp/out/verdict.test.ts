/** One state and one reason, from all that is known at a time: each of them, its limits, and which goes before which. */
import { describe, expect, it } from 'vitest';
import type { ReadingReason, ReadingState } from '../../../src/reading/codes';
import { drumVerdictOf, type MadeKnown, verdictAnew, verdictOf } from '../../support/rules/drumRules';
import { named } from '../../support/rules/named';
import { LIMITS } from '../../support/rules/rules';

interface Row {
  name: string;
  known: MadeKnown;
  state: ReadingState;
  reason: ReadingReason;
}

/** From the first to the last: what goes before all that stands below it. */
const order: Row[] = [
  { name: 'inputs exactly equal', known: { equalSeconds: 0.2 }, state: 'same-signal', reason: 'bit-identical' },
  { name: 'equal but for gain and sign', known: { sameSignal: true }, state: 'same-signal', reason: 'gain-copy' },
  { name: 'clipped hits', known: { clippedA: 8 }, state: 'overloaded', reason: 'clipped-a' },
  { name: 'hits in A only', known: { onlyA: 8 }, state: 'no-signal', reason: 'b-silent' },
  { name: 'open which of several drums is meant', known: { open: true }, state: 'unclear', reason: 'which-drum' },
  { name: 'nothing but low end in A', known: { drum: { lowEndA: true } }, state: 'unclear', reason: 'lows-only-a' },
  { name: 'nothing but low end in B', known: { drum: { lowEndB: true } }, state: 'unclear', reason: 'lows-only-b' },
  { name: 'on the move', known: { drum: { following: true } }, state: 'following', reason: 'moving' },
  { name: 'moved, and not four hits since', known: { drum: { moved: true } }, state: 'listening', reason: 'moved' },
  {
    name: 'three hits of the drum',
    known: { newest: 7, drum: { drumHits: 3 } },
    state: 'listening',
    reason: 'too-few-hits',
  },
  {
    name: 'two sure ones that contradict',
    known: { drum: { contradiction: true } },
    state: 'unclear',
    reason: 'push-and-shape-disagree',
  },
  { name: 'an answer', known: {}, state: 'measured', reason: 'agreed' },
];
/** and where there is no answer */
const without: Row[] = [
  ...order.slice(0, -1),
  { name: 'few first pushes to be seen', known: { drum: { usable: 3 } }, state: 'unclear', reason: 'arrival-hidden' },
  { name: 'pushes that don’t agree', known: {}, state: 'unclear', reason: 'hits-disagree' },
];

/** All of the rows' troubles at once. */
function together(rows: readonly Row[], sign: number): MadeKnown {
  const known: MadeKnown = { drum: { sign } };
  for (const row of rows) Object.assign(known, { ...row.known, drum: { ...known.drum, ...row.known.drum } });
  return known;
}

describe.each([
  ['with an answer', order, 1],
  ['without one', without, 0],
])('which goes before which, %s', (_, rows, sign) => {
  it.each(named(rows.map((row, i) => ({ ...row, below: rows.slice(i) }))))('%s', (_, { below, state, reason }) => {
    expect(verdictOf(together(below, sign))).toMatchObject({
      state,
      reason,
      measured: state === 'measured',
      following: state === 'following',
    });
  });
});

const limits: Row[] = [
  { name: 'equal for less than 0.2 s', known: { equalSeconds: 0.199 }, state: 'measured', reason: 'agreed' },
  { name: 'one source is wanted', known: { sameSignal: true, copyWanted: true }, state: 'measured', reason: 'agreed' },
  {
    name: 'one source is wanted, but not one signal routed twice',
    known: { equalSeconds: 0.2, copyWanted: true },
    state: 'same-signal',
    reason: 'bit-identical',
  },
  // more than half of the newest hits, two at least
  { name: 'one clipped hit', known: { newest: 1, clippedA: 1 }, state: 'measured', reason: 'agreed' },
  { name: 'two clipped hits of two', known: { newest: 2, clippedA: 2 }, state: 'overloaded', reason: 'clipped-a' },
  { name: 'half of the hits clipped', known: { clippedA: 4 }, state: 'measured', reason: 'agreed' },
  { name: 'more of them', known: { clippedA: 5 }, state: 'overloaded', reason: 'clipped-a' },
  { name: 'in B', known: { clippedB: 5 }, state: 'overloaded', reason: 'clipped-b' },
  { name: 'in B more than in A', known: { clippedA: 5, clippedB: 6 }, state: 'overloaded', reason: 'clipped-b' },
  { name: 'in both alike', known: { clippedA: 5, clippedB: 5 }, state: 'overloaded', reason: 'clipped-a' },
  {
    name: 'four in A, four in B, none in more than half',
    known: { clippedA: 4, clippedB: 4 },
    state: 'measured',
    reason: 'agreed',
  },
  // the same, three at least
  { name: 'two hits of two on one side only', known: { newest: 2, onlyA: 2 }, state: 'measured', reason: 'agreed' },
  { name: 'three of three in A only', known: { newest: 3, onlyA: 3 }, state: 'no-signal', reason: 'b-silent' },
  { name: 'half of the hits in A only', known: { onlyA: 4 }, state: 'measured', reason: 'agreed' },
  { name: 'more of them in B only', known: { onlyB: 5 }, state: 'no-signal', reason: 'a-silent' },
  {
    name: 'some in A only, some in B only',
    known: { onlyA: 4, onlyB: 1 },
    state: 'unclear',
    reason: 'no-common-signal',
  },
  {
    name: 'three hits of the drum, eight of all',
    known: { newest: 8, drum: { drumHits: 3 } },
    state: 'unclear',
    reason: 'several-drums',
  },
  {
    name: 'three hits of the drum, seven of all',
    known: { newest: 7, drum: { drumHits: 3 } },
    state: 'listening',
    reason: 'too-few-hits',
  },
  {
    name: 'as many as are needed',
    known: { drum: { drumHits: LIMITS.hitsNeeded } },
    state: 'measured',
    reason: 'agreed',
  },
  {
    name: 'no answer, half of the pushes to be seen',
    known: { drum: { sign: 0, usable: 4 } },
    state: 'unclear',
    reason: 'hits-disagree',
  },
  {
    name: 'no answer, noise in most of them',
    known: { drum: { sign: 0, hidden: true } },
    state: 'unclear',
    reason: 'arrival-hidden',
  },
  {
    name: 'an answer, though noise is in most of them',
    known: { drum: { sign: -1, hidden: true } },
    state: 'measured',
    reason: 'agreed',
  },
  // a recording's end: what both have heard of a drum stays
  { name: 'hits in B only at the end', known: { ended: true, onlyB: 8 }, state: 'measured', reason: 'agreed' },
  { name: 'hits in A only at the end', known: { ended: true, onlyA: 8 }, state: 'measured', reason: 'agreed' },
  {
    name: 'hits in one or the other at the end, and an answer',
    known: { ended: true, onlyA: 4, onlyB: 4 },
    state: 'measured',
    reason: 'agreed',
  },
  {
    name: 'hits in one or the other at the end, and none',
    known: { ended: true, onlyA: 4, onlyB: 4, drum: { sign: 0 } },
    state: 'unclear',
    reason: 'no-common-signal',
  },
  {
    name: 'hits in B only at the end, and four of a drum without an answer',
    known: { ended: true, onlyB: 8, drum: { sign: 0, drumHits: 4 } },
    state: 'unclear',
    reason: 'hits-disagree',
  },
  {
    name: 'hits in B only at the end, and three of a drum',
    known: { ended: true, onlyB: 8, drum: { sign: 0, drumHits: 3 } },
    state: 'no-signal',
    reason: 'a-silent',
  },
  {
    name: 'hits in B only at the end, and a microphone on the move',
    known: { ended: true, onlyB: 8, drum: { sign: 0, drumHits: 3, following: true } },
    state: 'no-signal',
    reason: 'a-silent',
  },
];

const noHit: Row[] = [
  {
    name: 'silence for less than 2 s',
    known: { seconds: 1.99, a: 'nothing', b: 'nothing' },
    state: 'listening',
    reason: 'nothing-yet',
  },
  {
    name: 'silence since the start',
    known: { seconds: 2, a: 'silent', b: 'silent' },
    state: 'no-signal',
    reason: 'both-silent',
  },
  { name: 'A silent', known: { seconds: 2, a: 'silent' }, state: 'no-signal', reason: 'a-silent' },
  { name: 'B silent', known: { seconds: 2, b: 'silent' }, state: 'no-signal', reason: 'b-silent' },
  { name: 'both heard, no drum', known: { seconds: 2 }, state: 'listening', reason: 'nothing-yet' },
  {
    name: 'a short file that has ended, silent',
    known: { seconds: 0.5, ended: true, a: 'nothing', b: 'nothing' },
    state: 'no-signal',
    reason: 'both-silent',
  },
  {
    name: 'a short file that has ended, B silent',
    known: { seconds: 0.5, ended: true, b: 'nothing' },
    state: 'no-signal',
    reason: 'b-silent',
  },
  {
    name: 'a short file that has ended, no drum in it',
    known: { seconds: 0.5, ended: true },
    state: 'listening',
    reason: 'nothing-yet',
  },
  { name: 'inputs exactly equal', known: { equalSeconds: 0.2 }, state: 'same-signal', reason: 'bit-identical' },
];

describe.each([
  ['the limits', limits.map((row) => ({ ...row, known: { hits: 8, ...row.known } }))],
  ['before the first hit', noHit.map((row) => ({ ...row, known: { hits: 0, ...row.known } }))],
])('%s', (_, rows) => {
  it.each(named(rows))('%s', (_, { known, state, reason }) => {
    expect(verdictOf(known)).toMatchObject({ state, reason, measured: state === 'measured', following: false });
  });
});

describe('a gap', () => {
  it.each([
    [0.019, false],
    [0.02, true],
  ])('zeros on both inputs for %d s: %s, and no state of its own', (zeroSeconds, gap) => {
    expect(verdictOf({ zeroSeconds })).toMatchObject({ gap, state: 'measured' });
  });
});

describe('one drum of the list', () => {
  // the inputs' own troubles are the reading's, not the drum's
  it.each(named(order.slice(5)))('%s', (_, { known, state, reason }) => {
    expect(drumVerdictOf(known.drum ?? {}, known.newest ?? 8)).toMatchObject({ state, reason });
  });
});

describe('a verdict keeps nothing of the one before it', () => {
  it.each(named(order))('%s', (_, { known }) => {
    const v = verdictAnew();
    for (const before of order) {
      verdictOf(before.known, v);
      expect(verdictOf(known, v)).toEqual(verdictOf(known));
      drumVerdictOf(before.known.drum ?? {}, 8, v);
      const { state, reason, measured, following } = drumVerdictOf(known.drum ?? {}, 8);
      expect(drumVerdictOf(known.drum ?? {}, 8, v)).toMatchObject({ state, reason, measured, following });
    }
  });
});
