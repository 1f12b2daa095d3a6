/** The blind round: what is drawn, what is heard of it, and what guessing comes to. */
import { describe, expect, it } from 'vitest';
import { beyondLuck, chanceOf } from '../../../src/teaching/byEar/luck';
import { drawRound, type Heard, type KnownPair, QUESTIONS, type Question } from '../../../src/teaching/byEar/round';

const PAIRS: KnownPair[] = [
  { id: 'one', title: 'One', sampleRate: 44100, delaySamples: 3.3, polarity: 'inverted' },
  { id: 'two', title: 'Two', sampleRate: 44100, delaySamples: 45, polarity: 'same' },
  { id: 'three', title: 'Three', sampleRate: 44100, delaySamples: -12, polarity: 'same' },
];
const rounds = Array.from({ length: 400 }, (_, i) => drawRound(i + 1, PAIRS));
const all = rounds.flat();
const apartSamples = ({ pair }: Question, { delayBSamples }: Heard): number => pair.delaySamples + delayBSamples;
const heardPolarity = ({ pair }: Question, { invertB }: Heard): string =>
  (pair.polarity === 'inverted') !== invertB ? 'inverted' : 'same';

describe('a round', () => {
  it('is the same for everybody who enters its number, and another for another number', () => {
    expect(drawRound(4711, PAIRS)).toEqual(drawRound(4711, PAIRS));
    expect(new Set(rounds.map((round) => JSON.stringify(round))).size).toBe(rounds.length);
  });

  it('asks by turns, and never twice running of the same pair', () => {
    for (const round of rounds) {
      expect(round.map(({ kind }) => kind)).toEqual(
        Array.from({ length: QUESTIONS }, (_, i) => (i % 2 === 0 ? 'polarity' : 'alignment')),
      );
      for (let i = 1; i < round.length; i++) expect(round[i]?.pair.id).not.toBe(round[i - 1]?.pair.id);
    }
  });

  it('each answer is right half of the time: no answer given blindly gets more', () => {
    for (const kind of ['polarity', 'alignment'] as const) {
      const asked = all.filter((one) => one.kind === kind);
      const first = asked.filter(({ truth }) => truth === 'inverted' || truth === 'x').length;
      // 2000 of each: five deviations of a fair coin are 5.6 %
      expect(Math.abs(first / asked.length - 0.5)).toBeLessThan(0.056);
    }
  });

  it('polarity: both lined up in time, X as the truth says, Y the other way', () => {
    for (const one of all.filter(({ kind }) => kind === 'polarity')) {
      expect(apartSamples(one, one.x)).toBeCloseTo(0, 9);
      expect(apartSamples(one, one.y)).toBeCloseTo(0, 9);
      expect(heardPolarity(one, one.x)).toBe(one.truth);
      expect(heardPolarity(one, one.y)).not.toBe(one.truth);
    }
  });

  it('alignment: the polarity right in both, one lined up, in the other B later by what is told', () => {
    for (const one of all) {
      if (one.kind !== 'alignment') continue;
      const [lined, off] = one.truth === 'x' ? [one.x, one.y] : [one.y, one.x];
      expect([heardPolarity(one, lined), heardPolarity(one, off)]).toEqual(['same', 'same']);
      expect(apartSamples(one, lined)).toBeCloseTo(0, 9);
      expect(apartSamples(one, off)).toBeCloseTo((one.apartMs * 44100) / 1000, 9);
    }
  });

  it('with a single pair it asks of that one', () => {
    expect(drawRound(7, PAIRS.slice(0, 1)).map(({ pair }) => pair.id)).toEqual(Array(QUESTIONS).fill('one'));
  });
});

describe('luck', () => {
  // binomial table, p = ½, n = 10 (any statistics handbook; from memory, and by the formula)
  it('at least 8 of 10 by guessing: 56 in 1024; 9: 11; all: 1', () => {
    expect([chanceOf(8, 10), chanceOf(9, 10), chanceOf(10, 10), chanceOf(0, 10)]).toEqual([
      56 / 1024,
      11 / 1024,
      1 / 1024,
      1,
    ]);
  });

  it('hardly luck: 5 of 5, 9 of 10; four are too few', () => {
    expect([beyondLuck(4), beyondLuck(5), beyondLuck(10)]).toEqual([null, 5, 9]);
  });
});
