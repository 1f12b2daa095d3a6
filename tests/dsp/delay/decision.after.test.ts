/** What may still take an answer back, and what is said of each hit. DEVELOPERS, "How an answer comes about", 6, 9 and 10. */
import { describe, expect, it } from 'vitest';
import { type AnswerRow, checkAnswer } from '../../support/rules/answerRows';
import { named } from '../../support/rules/named';
import {
  arrivals,
  decided,
  decisionAnew,
  decisionOf,
  type Heard,
  type MadeHit,
  NO_PUSH,
  poolOf,
  type Said,
  times,
} from '../../support/rules/rules';

/** trust 0.2: below the 0.3 of a sure one */
const UNSURE = { agree: 1, runnerUp: 0.8 };
const wave = (us: number): MadeHit => ({ waveUs: us });
const low = (us: number): MadeHit => ({ ...NO_PUSH, lowUs: us });

describe('unlike microphones', () => {
  const dull = (dB: number, more: MadeHit = {}): MadeHit => ({ tiltB: dB, ...more });
  /** convincing, and 0.07 ms and more off the first push */
  const bent = { atUs: 1071, agree: 0.85, runnerUp: 0.2 };
  it.each(
    named<AnswerRow>([
      {
        name: 'a convincing fit lies off: the pushes are bent',
        hits: times(8, dull(8)),
        fit: bent,
        method: null,
        contradiction: true,
      },
      {
        name: 'the same earlier, A the dull one',
        hits: times(8, { tiltA: 8 }),
        fit: { ...bent, atUs: 929 },
        method: null,
        contradiction: true,
      },
      { name: 'like microphones', hits: times(8, dull(7.9)), fit: bent, method: 'first-arrival' },
      { name: 'the fit near', hits: times(8, dull(8)), fit: { ...bent, atUs: 1069 }, method: 'first-arrival' },
      { name: 'fewer attacks fit', hits: times(8, dull(8)), fit: { ...bent, agree: 0.84 }, method: 'first-arrival' },
      { name: 'a runner-up', hits: times(8, dull(8)), fit: { ...bent, runnerUp: 0.21 }, method: 'first-arrival' },
      {
        name: 'a waveform’s answer has no push to be bent',
        hits: times(8, dull(8, { ...NO_PUSH, ...wave(1000) })),
        fit: bent,
        method: 'waveform',
      },
      // a push alone proves nothing there
      { name: 'no best fit', hits: times(8, dull(8)), method: null, contradiction: true },
      {
        name: 'a best fit of the other sign',
        hits: times(8, dull(8)),
        fit: { atUs: 1000, sign: -1, ...UNSURE },
        method: null,
        contradiction: true,
      },
      {
        name: 'a best fit beyond 0.5 ms',
        hits: times(8, dull(8)),
        fit: { atUs: 1510, ...UNSURE },
        method: null,
        contradiction: true,
      },
      {
        name: 'a best fit within 0.5 ms, unsure',
        hits: times(8, dull(8)),
        fit: { atUs: 1490, ...UNSURE },
        method: 'first-arrival',
      },
      {
        name: 'like ones, a best fit beyond 0.5 ms',
        hits: times(8, dull(7.9)),
        fit: { atUs: 1510, ...UNSURE },
        method: 'first-arrival',
      },
    ]),
  )('%s', (_, row) => checkAnswer(row));
});

describe('a microphone on the move', () => {
  const rest = Array(8).fill(1000);
  it('is followed to where it is now, whatever the other witnesses say of where it was', () => {
    const hits = arrivals(...rest, 1030, 1050, 1070, 1090).map((hit) => ({ ...hit, ...wave(2000) }));
    const said = decisionOf({ hits });
    expect(said).toMatchObject({ following: true, method: null, contradiction: false, moved: false });
    expect(said.delayUs).toBeCloseTo(1090, 6);
  });

  it.each(
    named([
      { name: 'jumped: two hits since', hits: [...rest, 1100, 1100], moved: true, method: null },
      { name: 'jumped: three hits since', hits: [...rest, 1100, 1100, 1100], moved: true, method: null },
      {
        name: 'jumped: four that agree',
        hits: [...rest, 1100, 1100, 1100, 1100],
        moved: false,
        method: 'first-arrival',
      },
      { name: 'at rest', hits: rest, moved: false, method: 'first-arrival' },
    ]),
  )('has %s', (_, { hits, moved, method }) =>
    expect(decisionOf({ hits: arrivals(...hits) })).toMatchObject({ moved, method }),
  );

  it('has moved for a drum that another one’s hits tell of, until it has four of its own', () => {
    const { store, pool, next } = poolOf(times(8));
    pool.forgetUpTo(store, 0, 8);
    for (const moved of [true, true, true, false]) {
      next({ delayUs: 1100 });
      expect(decided(store, pool).moved).toBe(moved);
    }
  });
});

describe('what becomes of each hit', () => {
  it('used, without a push, too faint, elsewhere', () => {
    const hits = [...times(6), NO_PUSH, { delayUs: 1500 }];
    expect(decisionOf({ hits }).fates).toEqual([...Array(6).fill('used'), 'no-arrival', 'disagrees']);
    const faint = [...times(6), { quality: 7.9 }, { delayUs: 1081 }];
    expect(decisionOf({ hits: faint }).fates.slice(6)).toEqual(['no-arrival', 'disagrees']);
  });

  it('old, before a move', () => {
    expect(decisionOf({ hits: [...times(8), ...times(4, { delayUs: 1100 })] }).fates).toEqual([
      ...Array(8).fill('old'),
      ...Array(4).fill('used'),
    ]);
  });

  it('that of another drum is left alone', () => {
    expect(decisionOf({ hits: [{ drum: 1 }, ...times(4)] }).fates).toEqual(['pending', ...Array(4).fill('used')]);
  });

  it('behind the witness that answers', () => {
    const hits = [low(1600), low(1000), low(1600), ...times(5, low(1000))];
    const fates = decisionOf({ hits, fit: { atUs: 1000 } }).fates;
    expect(fates).toEqual(['no-arrival', 'used', 'no-arrival', ...Array(5).fill('used')]);
  });
});

describe('a decision', () => {
  const scenes: Heard[] = [
    { hits: times(8), fit: { atUs: 1000 } },
    { hits: times(8, NO_PUSH) },
    { hits: times(8, { hidden: true }), fit: { atUs: 1400 } },
    { hits: times(8, low(1000)), fit: { atUs: 1020 } },
    { hits: arrivals(...Array(8).fill(1000), 1030, 1050, 1070, 1090) },
    { hits: arrivals(...Array(8).fill(1000), 1100, 1100) },
    { hits: times(8, { ...NO_PUSH, ...wave(1000) }), fit: { atUs: 1000, sign: -1 } },
    { hits: times(8, { ...NO_PUSH, ...wave(1000) }), fit: { atUs: 1000 } },
    { hits: times(8, { tiltA: 50, tiltB: 50, hidden: true }) },
    { hits: [...times(5), ...times(5, { sign: -1, quality: 4 })], fit: { atUs: 1000, sign: -1 } },
    { hits: times(8, NO_PUSH), stack: { atUs: 1000, members: 8 } },
  ];
  const all = ({ decision: d }: Pick<Said, 'decision'>) => ({
    answer: [d.delay, d.sign, d.spread, d.agreement, d.uncertainty, d.members, d.method],
    flags: [d.following, d.contradiction, d.lowEndA, d.lowEndB, d.moved, d.hidden],
    hits: [d.drumHits, d.usable, ...d.inAnswer],
  });
  const decide = ({ hits, fit, stack }: Heard, decision = decisionAnew()): Said => {
    const { store, pool } = poolOf(hits);
    return decided(store, pool, fit, stack, decision);
  };

  it('keeps nothing of the one before it', () => {
    const again = decisionAnew();
    for (const first of scenes)
      for (const then of scenes) {
        decide(first, again);
        expect(all(decide(then, again))).toEqual(all(decide(then)));
      }
  });

  it('of a drum that begins is none', () => {
    const fresh = all({ decision: decisionAnew() });
    for (const scene of scenes) {
      const said = decide(scene);
      said.decision.clear();
      expect(all(said)).toEqual(fresh);
    }
  });

  it('tells how many hits there are, how many can be read, and what hides the others', () => {
    const hits = [...times(3), ...times(5, { ...NO_PUSH, tiltA: 50, hidden: true })];
    expect(decide({ hits }).decision).toMatchObject({
      drumHits: 8,
      usable: 3,
      lowEndA: true,
      lowEndB: false,
      hidden: true,
    });
    const other = [...times(8, { tiltB: 50 })];
    expect(decide({ hits: other }).decision).toMatchObject({
      drumHits: 8,
      usable: 8,
      lowEndA: false,
      lowEndB: true,
      hidden: false,
    });
  });
});
