/** A round while nothing arrives, and a round in a tab that nobody looks at. */
import { afterEach, describe, expect, test } from 'vitest';
import type { Problem } from '../../../src/audio/link';
import { HALTED } from '../../../src/state/round/roundWords';
import { changed } from '../../support/readings/flat';
import { type Bench, BOTTOM, dispose, live, pairOf, sure, switchOf } from './roundBench';

afterEach(() => dispose?.());

const DROPPED: Problem = { code: 'dropped-audio', text: 'The computer drops audio; close other programs.' };
const NONE: Problem = { code: 'no-data', text: 'Nothing arrives; check the input.' };
const LOST: Problem = { code: 'input-lost', text: 'The input is gone; plug it in again.' };

async function begun(): Promise<Bench & { tell(problem: Problem): void; over(code: Problem['code']): void }> {
  const made = await live();
  made.round.begin(BOTTOM);
  made.round.enter();
  const events = () => made.openings.at(-1)?.events;
  return {
    ...made,
    tell: (problem) => void events()?.onProblem(problem),
    over: (code) => void events()?.onProblemOver?.(code),
  };
}

describe('while nothing arrives', () => {
  test('nothing is accepted or noted in any way, and the sheet says no more than before', async () => {
    for (const problem of [NONE, DROPPED, LOST]) {
      const why = problem === DROPPED ? HALTED.dropped : HALTED.none;
      const { round, shelf, say, tell } = await begun();
      say(sure('same'));
      tell(problem);
      const before = structuredClone(shelf.sheet());
      const presses = {
        enter: () => round.enter(),
        unsure: () => round.acceptUnsure(),
        takeNew: () => round.takeNew(),
        leave: () => round.leaveOnPurpose('as good as any'),
        a: () => round.inverted('a'),
        b: () => round.inverted('b'),
      };
      for (const [name, press] of Object.entries(presses)) {
        press();
        expect([name, round.said(), round.pair()?.id]).toEqual([name, why, BOTTOM]);
      }
      expect(shelf.sheet()).toEqual(before);
      dispose?.();
    }
  });

  test('the question before accepting against the plan isn’t answered', async () => {
    const { round, shelf, say, tell } = await begun();
    say(changed(sure('inverted', 12), { now: [-0.6, -0.6, null, null, null, null] }));
    round.enter();
    const asked = round.asking();
    expect(asked).toMatch(/^The plan says/);
    tell(NONE);
    round.acceptAnyway('wanted');
    round.acceptForMix();
    expect(pairOf(shelf, BOTTOM).acceptedAt).toBeNull();
  });

  test('a second look notes nothing', async () => {
    const { round, shelf, say, tell } = await begun();
    say(sure('same'));
    round.enter();
    round.beginCheck();
    round.enter();
    say(sure('inverted'));
    tell(NONE);
    const { checked } = pairOf(shelf, BOTTOM);
    round.enter();
    round.takeNew();
    expect([round.said(), pairOf(shelf, BOTTOM).checked, round.pair()?.id]).toEqual([HALTED.none, checked, BOTTOM]);
  });

  test('when it goes on, so does the pair: what was said is over, and the reading is accepted', async () => {
    const { round, shelf, say, tell, over } = await begun();
    say(sure('same'));
    tell(NONE);
    round.enter();
    over('no-data');
    expect(round.said()).toBe('');
    say(sure('same', 3, 9));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ before: { polarity: 'same', hits: 9 } });
    expect(pairOf(shelf, BOTTOM).acceptedAt).not.toBeNull();
  });

  test('"It is patched" waits too; a switch that is set on the sheet meanwhile counts from when it goes on', async () => {
    const { round, shelf, say, tell, over, openings } = await begun();
    say(sure('same'));
    tell(NONE);
    const told = () => openings.at(-1)?.log.filter((line) => line.startsWith('restart')).length ?? 0;
    const before = told();
    shelf.change((sheet) => ({
      ...sheet,
      microphones: sheet.microphones.map((one) => (one.id === 'snareBottom' ? { ...one, inverted: true } : one)),
    }));
    expect([switchOf(shelf, 'snareBottom'), told()]).toEqual([true, before]);
    over('no-data');
    expect([told(), round.now()]).toEqual([before + 1, null]);
    tell(NONE);
    round.begin(BOTTOM);
    round.enter();
    expect([round.patching(), round.said()]).toEqual([true, HALTED.none]);
    over('no-data');
    round.enter();
    expect(round.patching()).toBe(false);
  });

  test('an accepted reading needs no new hits', async () => {
    const { round, shelf, say, clock } = await begun();
    say(sure('same'));
    for (let minute = 0; minute < 10; minute++) {
      clock.ms += 60_000;
      say(sure('same'));
    }
    round.enter();
    expect(pairOf(shelf, BOTTOM).acceptedAt).not.toBeNull();
  });
});

describe('in a tab that gets no frames', () => {
  test('five moves of an accepted pair give five notices, each with its time', async () => {
    const { round, say, clock } = await live(false);
    /** forty readings a second */
    const sayFor = (ms: number, cm: number): void => {
      const read = sure('same', cm);
      for (let at = 0; at < ms; at += 25) {
        clock.ms += 25;
        say(read);
      }
    };
    round.begin(BOTTOM);
    round.enter();
    sayFor(500, 3);
    expect(round.now()?.polarity).toBe('same');
    round.enter();
    clock.ms += 1000;
    round.beginCheck();
    round.enter();
    sayFor(500, 3);
    const movedAt: number[] = [];
    for (const cm of [6, 9, 12, 8, 14]) {
      movedAt.unshift(clock.ms);
      sayFor(500, cm);
      clock.ms += 9000;
    }
    const told = round.changes();
    expect(told.map(({ text }) => /^Snare bottom: .*(farther|further|closer) than/.test(text))).toEqual(
      Array(5).fill(true),
    );
    for (const [i, { at }] of told.entries()) {
      const lateMs = Date.parse(at) - (movedAt[i] as number);
      expect(lateMs).toBeGreaterThan(0);
      expect(lateMs).toBeLessThanOrEqual(250);
    }
  });

  test('drums that are heard have their names, a reading that is certain is there to be accepted', async () => {
    const { meter, round, say, clock, settings } = await live(false);
    settings.setDrum('snare');
    round.begin(BOTTOM);
    round.enter();
    for (let i = 0; i < 20; i++) {
      clock.ms += 25;
      say(changed(sure('same'), { drum: 1, drums: [] }));
    }
    expect(meter.advice()?.text).not.toBe('');
    expect(round.now()?.sure).toBe(true);
  });
});
