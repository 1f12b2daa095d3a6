/**
 * The average of the hits where noise hides the first pushes of the single ones. DEVELOPERS, "How an answer comes about", 8
 * to 10: it answers from eight hits, or stands by first arrivals within 0.15 ms of it, unless anything sure says otherwise.
 */
import { describe, expect, it } from 'vitest';
import { type AnswerRow, checkAnswer } from '../../support/rules/answerRows';
import { named } from '../../support/rules/named';
import { decisionOf, type MadeHit, NO_PUSH, times } from '../../support/rules/rules';

const hidden: MadeHit = { hidden: true };
const faint = (sign: number): MadeHit => ({ sign, quality: 4, hidden: true });
const at = (delayUs: number): MadeHit => ({ delayUs });
/** the average of eight that noise can't move */
const stack = { atUs: 1000, members: 8 };
const UNSURE = { agree: 1, runnerUp: 0.8 };

const beside: AnswerRow[] = [
  { name: 'alone: no answer', hits: times(8, hidden), method: null },
  {
    name: 'and the average of four: its delay',
    hits: times(8, hidden),
    stack: { atUs: 1000, members: 4 },
    method: 'first-arrival',
  },
  {
    name: 'and the average 0.149 ms off: its delay',
    hits: times(8, hidden),
    stack: { ...stack, atUs: 1149 },
    method: 'first-arrival',
    delayUs: 1149,
  },
  { name: 'and the average 0.151 ms off', hits: times(8, hidden), stack: { ...stack, atUs: 1151 }, method: null },
  { name: 'and the average of the other sign', hits: times(8, hidden), stack: { ...stack, sign: -1 }, method: null },
  // noise bends the picks, the hits' scatter bends their average
  {
    name: 'and the average 0.1 ms off, a best fit that backs the arrivals: halfway',
    hits: times(8, hidden),
    stack: { ...stack, atUs: 1100 },
    fit: { atUs: 800, ...UNSURE },
    method: 'first-arrival',
    delayUs: 1050,
  },
  {
    name: 'clean ones, and the average 0.1 ms off: halfway',
    hits: times(8),
    stack: { ...stack, atUs: 1100 },
    method: 'first-arrival',
    delayUs: 1050,
  },
  {
    name: 'and the average, a sure best fit on a later swing',
    hits: times(8, hidden),
    stack,
    fit: { atUs: 1400 },
    method: 'first-arrival',
  },
  {
    name: 'and the average, noise in its threshold, no best fit near',
    hits: times(8, hidden),
    stack: { ...stack, bound: true },
    method: null,
  },
];

const instead: AnswerRow[] = [
  { name: 'no average', hits: times(8, NO_PUSH), method: null },
  { name: 'the average of eight', hits: times(8, NO_PUSH), stack, method: 'first-arrival' },
  { name: 'inverted', hits: times(8, NO_PUSH), stack: { ...stack, sign: -1 }, method: 'first-arrival', sign: -1 },
  { name: 'the average of seven', hits: times(8, NO_PUSH), stack: { ...stack, members: 7 }, method: null },
  {
    name: 'noise may move it by 39 µs',
    hits: times(8, NO_PUSH),
    stack: { ...stack, noiseMoveUs: 39 },
    method: 'first-arrival',
  },
  { name: 'noise may move it by 41 µs', hits: times(8, NO_PUSH), stack: { ...stack, noiseMoveUs: 41 }, method: null },
  {
    name: 'by 79 µs, a best fit within 0.3 ms',
    hits: times(8, NO_PUSH),
    stack: { ...stack, noiseMoveUs: 79 },
    fit: { atUs: 1290, ...UNSURE },
    method: 'first-arrival',
  },
  {
    name: 'by 81 µs, a best fit within 0.3 ms',
    hits: times(8, NO_PUSH),
    stack: { ...stack, noiseMoveUs: 81 },
    fit: { atUs: 1290, ...UNSURE },
    method: null,
  },
  {
    name: 'by 41 µs, a best fit beyond 0.3 ms',
    hits: times(8, NO_PUSH),
    stack: { ...stack, noiseMoveUs: 41 },
    fit: { atUs: 1310, ...UNSURE },
    method: null,
  },
  { name: 'noise set its threshold', hits: times(8, NO_PUSH), stack: { ...stack, bound: true }, method: null },
  {
    name: 'noise set its threshold, a best fit near',
    hits: times(8, NO_PUSH),
    stack: { ...stack, bound: true },
    fit: { atUs: 1290, ...UNSURE },
    method: 'first-arrival',
  },
  {
    name: 'noise set its threshold, a best fit near of the other sign',
    hits: times(8, NO_PUSH),
    stack: { ...stack, bound: true },
    fit: { atUs: 1000, sign: -1, ...UNSURE },
    method: null,
  },
  // seen by no one but the fit: the pushes are too faint to use, and hidden
  {
    name: 'a sure best fit of the other sign',
    hits: times(8, faint(-1)),
    stack,
    fit: { atUs: 1000, sign: -1 },
    method: null,
  },
  {
    name: 'an unsure one of the other sign',
    hits: times(8, faint(-1)),
    stack,
    fit: { atUs: 1000, sign: -1, ...UNSURE },
    method: 'first-arrival',
  },
  {
    name: 'the low end of the other sign',
    hits: times(8, { ...NO_PUSH, lowUs: 1000, lowSign: -1 }),
    stack,
    method: null,
  },
  { name: 'the low end of its sign', hits: times(8, { ...NO_PUSH, lowUs: 1400 }), stack, method: 'first-arrival' },
  {
    name: 'sure waveforms within 0.3 ms',
    hits: times(8, { ...NO_PUSH, waveUs: 1290 }),
    stack,
    method: 'first-arrival',
  },
  { name: 'sure waveforms beyond', hits: times(8, { ...NO_PUSH, waveUs: 1310 }), stack, method: null },
  {
    name: 'sure waveforms of the other sign',
    hits: times(8, { ...NO_PUSH, waveUs: 1000, waveSign: -1 }),
    stack,
    method: null,
  },
];

/** first arrivals to be seen in some, too few to be sure: within 0.3 ms of the average, or not */
const odd: AnswerRow[] = [
  {
    name: 'as many near as elsewhere',
    hits: [at(1290), at(1310), ...times(6, NO_PUSH)],
    stack,
    method: 'first-arrival',
  },
  { name: 'more elsewhere', hits: [at(1290), at(1310), at(690), ...times(5, NO_PUSH)], stack, method: null },
  { name: 'one near, of the other sign', hits: [{ sign: -1 }, ...times(7, NO_PUSH)], stack, method: null },
  {
    name: 'more elsewhere, but noise hides them',
    hits: [...times(3, { ...hidden, delayUs: 3000 }), ...times(5, NO_PUSH)],
    stack,
    method: 'first-arrival',
  },
];

/** hits behind the answer: in the average, or a first arrival of their own within 0.15 ms of it */
const shares: AnswerRow[] = [
  { name: 'nine of twelve in it', hits: times(12, NO_PUSH), stack: { ...stack, members: 9 }, method: 'first-arrival' },
  { name: 'eight of twelve in it', hits: times(12, NO_PUSH), stack, method: null },
  {
    name: 'eight of twelve, and one that says the same',
    hits: [...times(11, NO_PUSH), at(1149)],
    stack,
    method: 'first-arrival',
  },
  { name: 'eight of twelve, and one 0.151 ms off', hits: [...times(11, NO_PUSH), at(1151)], stack, method: null },
  {
    name: 'eight of twelve, and one of the other sign',
    hits: [at(1290), ...times(10, NO_PUSH), { sign: -1 }],
    stack,
    method: null,
  },
];

describe.each([
  ['noisy first arrivals that agree', beside],
  ['the average where no first push can be read', instead],
  ['the average, and what can be read of single hits', odd],
  ['the share of the hits behind the average', shares],
])('%s', (_, rows) => {
  it.each(named(rows))('%s', (_, row) => checkAnswer(row));
});

describe('an answer from the average', () => {
  it('marks the hits behind it', () => {
    const { fates } = decisionOf({ hits: [...times(9, NO_PUSH), at(1100), NO_PUSH, at(1200)], stack });
    expect(fates).toEqual([...Array(8).fill('used'), 'no-arrival', 'used', 'no-arrival', 'disagrees']);
  });

  const FLOOR = 1.645 * 14;
  it.each(
    named([
      {
        name: 'what noise may do to it',
        hits: times(8, NO_PUSH),
        atUs: 1000,
        fitUs: 1000,
        uncertaintyUs: Math.hypot(FLOOR, 30),
      },
      // halfway between 1000 and 1100, where the best fit is
      {
        name: 'and how far it lies from the answer',
        hits: times(8, hidden),
        atUs: 1100,
        fitUs: 1050,
        uncertaintyUs: Math.hypot(FLOOR, 30, 50),
      },
    ]),
  )('is as uncertain as: %s', (_, { hits, atUs, fitUs, uncertaintyUs }) => {
    const said = decisionOf({ hits, stack: { ...stack, atUs, noiseMoveUs: 30 }, fit: { atUs: fitUs } });
    expect(said.uncertaintyUs).toBeCloseTo(uncertaintyUs, 6);
  });
});
