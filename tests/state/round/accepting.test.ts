/** What Enter asks where a pair would be accepted against the plan, and what comes of each answer. */
import { afterEach, describe, expect, test } from 'vitest';
import type { PairKindId } from '../../../src/advice/plan/pairKinds';
import { NEAR_BANDS, NEAR_POINTS } from '../../../src/reading/bands';
import type { Reading } from '../../../src/reading/reading';
import { changePair, recordPair, setReference } from '../../../src/sheet/document/edits';
import { drum, reading } from '../../advice/readings';
import { changed } from '../../support/readings/flat';
import { type Bench, BOTTOM, dispose, live, pairOf, sure } from './roundBench';

afterEach(() => dispose?.());

describe('accepting against the plan', () => {
  /** Snare top is to be inverted or not, or delayed, by what the sum says; at 12 cm the arrival is 0.35 ms. */
  const saying = (now: number, later: number | null = null, hits = 8): Reading => {
    const bands = Array.from({ length: NEAR_BANDS }, () => new Float64Array(NEAR_POINTS).fill(later ?? Number.NaN));
    const near = { centreSamples: 16.8, stepSamples: 1, bands };
    return changed(sure('inverted', 12, hits), { now: [now, now, null, null, null, null], near });
  };
  async function begun(kind: PairKindId = 'other'): Promise<Bench> {
    const made = await live();
    made.shelf.change((sheet) => changePair(sheet, BOTTOM, { kind }));
    made.round.begin(BOTTOM);
    made.round.enter();
    return made;
  }
  const QUESTION = 'The plan says invert Snare bottom. Leave the pair as it is, on purpose?';

  test('is asked once, by what is to be done and to which microphone; nothing is accepted by it', async () => {
    const { round, shelf, say, meter } = await begun();
    say(saying(-0.6));
    expect(meter.advice()?.plan[0]).toMatchObject({ invertB: true });
    expect([round.asking(), round.mayBeForMix()]).toEqual([null, false]);
    round.enter();
    expect([round.asking(), round.mayBeForMix()]).toEqual([QUESTION, true]);
    // a second Enter answers nothing
    round.enter();
    expect(round.asking()).toBe(QUESTION);
    expect(pairOf(shelf, BOTTOM).acceptedAt).toBeNull();
    round.dontAccept();
    expect([round.asking(), pairOf(shelf, BOTTOM).acceptedAt, round.pair()?.id]).toEqual([null, null, BOTTOM]);
  });

  test('by U as by Enter, where the reading is certain', async () => {
    const { round, shelf, say } = await begun();
    say(saying(-0.6));
    round.acceptUnsure();
    expect([round.asking(), pairOf(shelf, BOTTOM).acceptedAt]).toEqual([QUESTION, null]);
  });

  test('as it is, on purpose: the reason is kept, and the kit leaves it', async () => {
    const { round, shelf, say } = await begun();
    say(saying(-0.6));
    round.enter();
    round.acceptAnyway('wanted thin');
    expect(pairOf(shelf, BOTTOM)).toMatchObject({
      before: { plan: { invertB: true } },
      done: { leftOnPurpose: true, note: 'wanted thin', later: null },
    });
    expect(pairOf(shelf, BOTTOM).acceptedAt).not.toBeNull();
    expect([round.asking(), round.said()]).toEqual([null, 'Snare top & Snare bottom: accepted, left on purpose.']);
    expect(round.system()?.choice?.invert).toEqual([]);
  });

  test('for the mix: all of it is put off, invert and delay together', async () => {
    const { round, shelf, say } = await begun();
    say(saying(-0.2, -0.9));
    round.enter();
    expect(round.asking()).toBe(
      'The plan says invert Snare bottom and delay Snare top by 0.35 ms (17 samples). Leave the pair as it is, on purpose?',
    );
    round.acceptForMix();
    expect(pairOf(shelf, BOTTOM).done).toMatchObject({ later: { invertB: true, delayMs: 0.35 }, leftOnPurpose: false });
    expect(round.said()).toBe('Snare top & Snare bottom: accepted, the rest in the mix.');
    expect(round.system()?.choice).toMatchObject({ invert: ['snareBottom'], delays: [{ microphone: 'snareTop' }] });
  });

  test('a delay alone belongs to the mix: nothing is asked', async () => {
    const { round, shelf, say } = await begun();
    say(saying(0.1, 0.9));
    round.enter();
    expect(pairOf(shelf, BOTTOM).done).toMatchObject({ later: { invertB: false, delayMs: 0.35 } });
  });

  test('the plan is done: nothing is asked, and nothing put off', async () => {
    const { round, shelf, say } = await begun();
    say(saying(-0.6));
    round.inverted('b');
    say(changed(saying(0.6, null, 5), { polarity: 'same' }));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ after: { bInverted: true }, done: { inverted: 'b', later: null } });
  });

  test('a move isn’t made in the mix: as it is, or not at all', async () => {
    const { round, shelf, say } = await begun('same-side');
    say(saying(0.1, 0.9));
    round.enter();
    expect(round.asking()).toMatch(
      /^The plan says move Snare bottom 12 cm closer to the drum\. Leave the pair as it is, /,
    );
    expect(round.mayBeForMix()).toBe(false);
    round.acceptForMix();
    expect(round.said()).toContain('can’t move a mic in the mix');
    expect(pairOf(shelf, BOTTOM).acceptedAt).toBeNull();
    round.acceptAnyway('no room');
    expect(pairOf(shelf, BOTTOM).done).toMatchObject({ leftOnPurpose: true, note: 'no room' });
  });

  test('the question goes with what it was asked of: a switch pressed, a plan that is done, another pair', async () => {
    const { round, say } = await begun();
    say(saying(-0.6));
    round.enter();
    round.inverted('b');
    expect(round.asking()).toBeNull();
    say(saying(-0.6, null, 5));
    expect(round.asking()).toBeNull();
    round.enter();
    expect(round.asking()).not.toBeNull();
    round.putOff();
    expect(round.asking()).toBeNull();
  });

  test('answers to what isn’t asked do nothing', async () => {
    const { round, shelf, say } = await begun();
    say(saying(-0.6));
    round.acceptAnyway('x');
    round.acceptForMix();
    round.dontAccept();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ acceptedAt: null, done: null });
  });

  test('read again as it was when it was decided about: nothing is asked again; never decided, it is', async () => {
    const { round, shelf, say, clock } = await begun();
    say(saying(-0.6));
    round.enter();
    round.acceptAnyway('wanted thin');
    const { done } = pairOf(shelf, BOTTOM);
    const again = async (hits: number): Promise<void> => {
      clock.ms += 1000;
      round.begin(BOTTOM);
      round.enter();
      say(saying(-0.6, null, hits));
      round.enter();
    };
    await again(9);
    expect([round.asking(), pairOf(shelf, BOTTOM).done]).toEqual([null, done]);
    shelf.change((sheet) => recordPair(sheet, BOTTOM, { ...pairOf(shelf, BOTTOM), done: null }));
    await again(10);
    expect(round.asking()).toBe(QUESTION);
  });

  test('the reference isn’t the one to be inverted', async () => {
    const { round, shelf, say } = await begun();
    shelf.change((sheet) => setReference(sheet, 'snare', 'snareBottom'));
    say(saying(-0.6));
    round.enter();
    expect(round.asking()).toContain('invert Snare top. Leave the pair as it is');
  });
});

describe('where the meter picked one of several drums', () => {
  const ASKS = 'Were these hits the snare’s? If so, accept again; if not, choose the drum (key D).';
  const picked = (drumId: number, drumChosen = false): Reading =>
    changed(sure('same', 0.1), { drums: [drum(1), drum(2)], drum: drumId, drumChosen });
  async function read(one: Reading): Promise<Bench> {
    const made = await live();
    made.round.begin(BOTTOM);
    made.round.enter();
    made.clock.ms += 5000;
    made.say(one);
    return made;
  }

  test('one Enter asks whether it is the pair’s, a second one accepts, but not in the same breath', async () => {
    const { round, shelf, clock } = await read(picked(2));
    round.enter();
    clock.ms += 200;
    round.enter();
    expect([round.said(), pairOf(shelf, BOTTOM).acceptedAt]).toEqual([ASKS, null]);
    clock.ms += 1000;
    round.enter();
    expect(pairOf(shelf, BOTTOM).acceptedAt).not.toBeNull();
  });

  test('another drum that it turns to is asked about again', async () => {
    const { round, shelf, clock, say } = await read(picked(2));
    round.enter();
    clock.ms += 1000;
    say(picked(1));
    expect(round.said()).toBe('');
    round.enter();
    expect([round.said(), pairOf(shelf, BOTTOM).acceptedAt]).toEqual([ASKS, null]);
  });

  test('a drum that a person chose is accepted at once, and so is the only one', async () => {
    for (const one of [picked(2, true), sure('same', 0.1)]) {
      const { round, shelf } = await read(one);
      round.enter();
      expect(pairOf(shelf, BOTTOM).acceptedAt).not.toBeNull();
    }
  });
});

describe('while it is open which drum is meant', () => {
  const open = (): Reading =>
    reading({ state: 'unclear', reason: 'which-drum', hits: 12, drums: [drum(1), drum(2)], a: LEVEL, b: LEVEL });
  const LEVEL = { peakDbfs: -12, rmsDbfs: -30, clips: 0, dc: 0, silent: false };
  const NOT = 'Not accepted, because several drums are heard: choose one first, or have just one drum hit.';

  test('nothing is accepted, certain or uncertain, nor left on purpose, and one sentence says why', async () => {
    const { round, shelf, say, clock } = await live();
    round.begin(BOTTOM);
    round.enter();
    say(open());
    clock.ms += 5000;
    const ways = [
      () => round.enter(),
      () => round.acceptUnsure(),
      () => round.leaveOnPurpose('as good as any'),
      () => round.takeNew(),
    ];
    for (const way of ways) {
      way();
      expect(round.said()).toBe(NOT);
      expect([round.pair()?.id, round.asking()]).toEqual([BOTTOM, null]);
      expect(pairOf(shelf, BOTTOM)).toMatchObject({ acceptedAt: null, before: null, after: null, done: null });
    }
    // gone once one is chosen, which is accepted as ever
    say(sure('same', 0.1));
    expect(round.said()).toBe('');
    round.enter();
    expect(pairOf(shelf, BOTTOM).acceptedAt).not.toBeNull();
  });

  test('nor is what no headline has said yet', async () => {
    const { round, shelf, say, clock } = await live();
    // whose drum nobody says: no name comes with an answer
    shelf.change((sheet) => changePair(sheet, BOTTOM, { drum: '' }));
    round.begin(BOTTOM);
    round.enter();
    say(open());
    clock.ms += 5000;
    // a change waits for a second hit: "Which drum?" still stands
    say(sure('same', 0.1, 13));
    round.enter();
    expect([round.said(), pairOf(shelf, BOTTOM).acceptedAt]).toEqual([NOT, null]);
    say(sure('same', 0.1, 14));
    round.enter();
    expect(pairOf(shelf, BOTTOM).acceptedAt).not.toBeNull();
  });

  test('nothing is compared at the recheck', async () => {
    const { round, shelf, say, clock } = await live();
    round.begin(BOTTOM);
    round.enter();
    say(sure('same', 0.1));
    round.enter();
    const accepted = pairOf(shelf, BOTTOM);
    expect(accepted.acceptedAt).not.toBeNull();
    round.beginCheck();
    clock.ms += 5000;
    round.enter();
    clock.ms += 5000;
    say(open());
    round.enter();
    expect(round.said()).toBe('Nothing to compare yet: choose the drum first, or put the pair off.');
    expect(pairOf(shelf, BOTTOM)).toEqual(accepted);
  });
});
