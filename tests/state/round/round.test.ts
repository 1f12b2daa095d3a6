/** The round on the meter: a door under the test's hand, a shelf in memory. */
import { afterEach, describe, expect, test } from 'vitest';
import { answerOf, type DrumReading, type Reading } from '../../../src/reading/reading';
import {
  changeMicrophone,
  changePair,
  changeSheet,
  recordPair,
  removeMicrophone,
} from '../../../src/sheet/document/edits';
import { drum, reading } from '../../advice/readings';
import { changed } from '../../support/readings/flat';
import { settle } from '../fakeDoor';
import { type Bench, BOTTOM, bench, dispose, KICK, live, pairOf, SNARE, sure, switchOf } from './roundBench';

afterEach(() => dispose?.());

describe('a live pair', () => {
  test('nothing counts before it is patched: what is still plugged in belongs to the pair before', async () => {
    const { meter, round, say, settings } = await live();
    round.begin(BOTTOM);
    say(sure('inverted'));
    expect([round.patching(), round.now(), round.covered()]).toEqual([true, null, true]);
    expect(round.bring()).toMatch(/^Patch Snare top .*to interface input 1 and Snare bottom .*to interface input 2/);
    round.enter();
    expect([round.patching(), round.covered()]).toEqual([false, false]);
    // what was read before is forgotten, and nothing has come since
    expect(round.now()).toBeNull();
    say(sure('inverted'));
    expect(round.now()).toMatchObject({ sure: true, polarity: 'inverted' });
    expect([settings.kind(), ...settings.labels()]).toEqual(['top-bottom', 'Snare top', 'Snare bottom']);
    expect(meter.context()).toMatchObject({ aLabel: 'Snare top', bLabel: 'Snare bottom' });
    expect(settings.drum()).toBe('snare');
  });

  async function begun(): Promise<Bench> {
    const made = await live();
    made.round.begin(BOTTOM);
    made.round.enter();
    return made;
  }

  test('a sure reading is accepted with one press, and the next pair is proposed', async () => {
    const { round, shelf, say } = await begun();
    round.setInitials('lv');
    say(sure('inverted'));
    round.enter();
    const kept = pairOf(shelf, BOTTOM);
    expect(kept.acceptedAt).toBe('2026-01-02T14:10:00.000Z');
    expect(kept).toMatchObject({ after: null, before: { sure: true, polarity: 'inverted', initials: 'lv', hits: 8 } });
    expect(round.pair()?.id).toBe(shelf.sheet()?.pairs[0]?.id);
    expect([round.said(), round.patching()]).toEqual(['Snare top & Snare bottom: accepted.', true]);
  });

  test('an unsure one isn’t, unless as such', async () => {
    const { round, shelf, say } = await begun();
    say(reading({ state: 'unclear', reason: 'hits-disagree', hits: 9 }));
    round.enter();
    expect(round.said()).toContain('the reading is uncertain');
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ before: null, acceptedAt: null });
    round.acceptUnsure();
    const kept = pairOf(shelf, BOTTOM);
    expect(kept.acceptedAt).not.toBeNull();
    expect(kept.before).toMatchObject({ sure: false, polarity: null, delayMs: null, hits: 9 });
    expect(kept.before?.reason).not.toBe('');
  });

  test('inverted at its switch: before, after and the switch are on the sheet', async () => {
    const { round, shelf, say, openings } = await begun();
    say(sure('inverted'));
    round.inverted('b');
    expect(switchOf(shelf, 'snareBottom')).toBe(true);
    expect(openings[0]?.log.at(-1)).toMatch(/^restart/);
    // the old polarity, still on the screen, isn't taken for a reading with the switch pressed
    expect(round.now()).toBeNull();
    say(sure('same', 3, 5));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({
      before: { polarity: 'inverted', bInverted: false },
      after: { polarity: 'same', bInverted: true, hits: 5 },
      done: { inverted: 'b', movedCm: null },
    });
  });

  test('a polarity that turned over without a switch is noted as that: no switch is turned unasked', async () => {
    const { round, shelf, say } = await begun();
    say(sure('inverted'));
    say(sure('same', 3, 9));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({
      after: { polarity: 'same', bInverted: false },
      done: { inverted: null, note: 'polarity inverted, no switch press noted' },
    });
    expect(switchOf(shelf, 'snareBottom')).toBe(false);
  });

  test('a move is measured, not typed', async () => {
    const { round, shelf, say } = await begun();
    say(sure('same', 5));
    say(sure('same', 2, 4));
    round.enter();
    expect(pairOf(shelf, BOTTOM).done).toMatchObject({ inverted: null, movedCm: 3 });
  });

  test('the meter’s own invert changes nothing on the sheet', async () => {
    const { meter, round, shelf, say } = await begun();
    meter.setInvertB(true);
    say(sure('same'));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ before: { polarity: 'inverted', bInverted: false }, done: null });
  });

  test('left on purpose, with its note', async () => {
    const { round, shelf, say } = await begun();
    say(sure('inverted'));
    round.leaveOnPurpose('wanted thin');
    expect(pairOf(shelf, BOTTOM)).toMatchObject({
      before: { polarity: 'inverted' },
      done: { leftOnPurpose: true, note: 'wanted thin', inverted: null, later: null },
    });
    expect(switchOf(shelf, 'snareBottom')).toBe(false);
  });

  test('a page that goes down in the middle has its first reading on the sheet', async () => {
    const { shelf, say } = await begun();
    say(sure('inverted', 3, 4));
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ before: { polarity: 'inverted', hits: 4 }, acceptedAt: null });
    say(sure('inverted', 3, 8));
    expect(pairOf(shelf, BOTTOM).before?.hits).toBe(8);
    await shelf.settled();
    expect(shelf.storing()).toBe('stored');
  });

  test('a pair that goes with its microphone is no longer in hand', async () => {
    const { round, shelf } = await begun();
    shelf.change((sheet) => removeMicrophone(sheet, 'snareBottom'));
    expect(round.pair()).toBeNull();
  });

  test('put off: the next one comes, and this one after the others', async () => {
    const { round, shelf } = await begun();
    const order = shelf.sheet()?.pairs.map(({ id }) => id) as string[];
    round.putOff();
    const seen = [round.pair()?.id];
    for (let i = 0; i < order.length - 1; i++) {
      round.putOff();
      seen.push(round.pair()?.id);
    }
    expect(seen.slice(0, order.length - 1)).toEqual(order.filter((id) => id !== BOTTOM));
    expect(seen.at(-1)).toBe(order[0]);
  });
});

describe('a reading belongs to one pair, one patch, one setting of the switches', () => {
  async function begun(): Promise<Bench> {
    const made = await live();
    made.round.begin(BOTTOM);
    made.round.enter();
    return made;
  }

  test('a second Enter right after the first isn’t “patched” for the next pair', async () => {
    const { round, say, clock } = await begun();
    say(sure('inverted'));
    round.enter();
    round.enter();
    expect(round.patching()).toBe(true);
    clock.ms += 1000;
    round.enter();
    expect(round.patching()).toBe(false);
  });

  test('another microphone or drum on the sheet: the hits of the patch before don’t go to it', async () => {
    const { round, shelf, say } = await begun();
    say(sure('inverted'));
    shelf.change((sheet) => changePair(sheet, BOTTOM, { b: 'overheadLeft' }));
    expect([round.patching(), round.now(), round.first()]).toEqual([true, null, null]);
    say(sure('inverted', 3, 9));
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ b: 'overheadLeft', before: null });
    // undone: the pair that was read has its reading, the other one has none
    shelf.undo();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ b: 'snareBottom', before: { polarity: 'inverted' } });
    shelf.redo();
    expect(pairOf(shelf, BOTTOM).before).toBeNull();
  });

  test('the meter’s invert: the reading on the screen is from before, and waits for the next', async () => {
    const { meter, round, say } = await begun();
    say(sure('inverted'));
    meter.setInvertB(true);
    expect(round.now()).toBeNull();
    say(sure('same'));
    expect(round.now()).toMatchObject({ polarity: 'inverted' });
  });

  test('a switch set in the table, or undone, is as if it was pressed: read again', async () => {
    const { round, shelf, say, openings } = await begun();
    say(sure('inverted'));
    shelf.change((sheet) => changeMicrophone(sheet, 'snareBottom', { inverted: true }));
    expect(round.now()).toBeNull();
    expect(openings[0]?.log.at(-1)).toMatch(/^restart/);
    say(sure('same', 3, 4));
    round.enter();
    expect(pairOf(shelf, BOTTOM).done).toMatchObject({ inverted: 'b' });
  });

  test('A and B swapped: what was read the other way round is no move', async () => {
    const { meter, round, shelf, say, settings } = await begun();
    say(sure('inverted', 3));
    meter.swap();
    expect([round.now(), round.first(), pairOf(shelf, BOTTOM).before]).toEqual([null, null, null]);
    // input 2 is A now
    expect(settings.labels()).toEqual(['Snare bottom', 'Snare top']);
    expect(meter.context()).toMatchObject({ aLabel: 'Snare top', bLabel: 'Snare bottom' });
    say(sure('inverted', -3));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ after: null, done: null });
  });

  test('begun anew: the reading before is gone, and no move is made of it', async () => {
    const { round, shelf, say } = await begun();
    say(sure('inverted', 30));
    round.anew();
    expect(pairOf(shelf, BOTTOM).before).toBeNull();
    say(sure('inverted', 3));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ after: null, done: null, before: { hits: 8 } });
  });

  test('another drum of those heard is no move either', async () => {
    const { round, shelf, say } = await begun();
    say(changed(sure('inverted', 3), { drum: 1, drums: [] }));
    say(changed(sure('inverted', 30), { drum: 2, drums: [] }));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ after: null, done: null });
  });

  test('an unsure reading that was kept before a switch is replaced by the first sure one of the same switches', async () => {
    const { round, shelf, say } = await begun();
    say(reading({ state: 'listening', reason: 'too-few-hits', hits: 1 }));
    round.inverted('b');
    round.inverted('b');
    say(sure('inverted', 3, 5));
    expect(round.first()).toMatchObject({ sure: true });
    expect(pairOf(shelf, BOTTOM).before).toMatchObject({ sure: true, hits: 5 });
    say(sure('inverted', 8, 4));
    round.enter();
    expect(pairOf(shelf, BOTTOM).done).toMatchObject({ movedCm: -5 });
  });

  test('the pair kind chosen in the meter is the sheet’s, and back with undo', async () => {
    const { round, shelf, settings } = await begun();
    expect(round.setKind('same-side')).toBe(true);
    expect([pairOf(shelf, BOTTOM).kind, settings.kind()]).toEqual(['same-side', 'same-side']);
    shelf.undo();
    expect([pairOf(shelf, BOTTOM).kind, settings.kind()]).toEqual(['top-bottom', 'top-bottom']);
    round.stop();
    expect(round.setKind('same-side')).toBe(false);
  });

  test('read again as it was: what was done, left and noted stays', async () => {
    const { round, shelf, say, clock } = await begun();
    say(sure('inverted'));
    round.inverted('b');
    say(sure('same'));
    round.leaveOnPurpose('wanted thin');
    clock.ms += 1000;
    const { done, before } = pairOf(shelf, BOTTOM);
    expect(done).toMatchObject({ inverted: 'b', leftOnPurpose: true, note: 'wanted thin' });
    round.begin(BOTTOM);
    round.enter();
    say(sure('same', 3.1, 9));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ before, done, after: { hits: 9 } });
  });

  test('an input that is lost is read no more', async () => {
    const { round, say, openings } = await begun();
    say(sure('inverted'));
    openings[0]?.events.onProblem({ code: 'input-lost', text: 'gone' });
    expect(round.now()).toBeNull();
  });

  test('U takes nothing where nothing was heard', async () => {
    const { round, shelf, say } = await begun();
    say(reading({ state: 'listening', reason: 'nothing-yet', hits: 0 }));
    round.acceptUnsure();
    expect(pairOf(shelf, BOTTOM).acceptedAt).toBeNull();
    expect(round.said()).toContain('No reading of this pair yet');
  });

  test('one temperature for meter and kit: the kit’s when it is opened, the person’s from then on', async () => {
    const { meter, settings, shelf, say, round } = await begun();
    shelf.change((sheet) => changeSheet(sheet, { temperatureC: 31 }));
    expect(settings.temperatureC()).toBe(31);
    meter.setTemperatureC(28);
    expect(shelf.sheet()?.temperatureC).toBe(28);
    shelf.undo();
    expect(settings.temperatureC()).toBe(31);
    say(sure('inverted'));
    round.enter();
    expect(pairOf(shelf, BOTTOM).before?.temperatureC).toBe(31);
  });
});

describe('a recording', () => {
  async function recorded(): Promise<Bench> {
    const made = await bench();
    made.round.begin(BOTTOM);
    const opened = made.meter.open({ type: 'recording', files: [], mode: 'analyse' });
    await settle();
    await made.openings[0]?.letIn();
    await opened;
    return made;
  }

  test('is of one pair: Enter asks for the next pair’s own, and reads nothing of this one', async () => {
    const { round, shelf, say, meter, clock } = await recorded();
    say(sure('inverted'));
    round.enter();
    clock.ms += 1000;
    round.enter();
    expect([meter.page(), round.patching()]).toEqual(['recording', true]);
    const next = round.pair()?.id as string;
    say(sure('inverted', 3, 9));
    expect(pairOf(shelf, next).before).toBeNull();
  });

  test('a switch that is undone: the recording that is open is of the pair after all', async () => {
    const { round, shelf, say } = await recorded();
    say(sure('inverted'));
    round.inverted('b');
    expect(round.patching()).toBe(true);
    shelf.undo();
    expect([round.patching(), round.said()]).toEqual([false, '']);
    say(sure('inverted', 3, 9));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ after: null, before: { polarity: 'inverted', bInverted: false } });
  });

  test('doesn’t change by a switch: another one is asked for, and compared with what was read before', async () => {
    const { round, shelf, say, meter, openings } = await recorded();
    say(sure('inverted'));
    round.inverted('b');
    expect(round.patching()).toBe(true);
    expect(round.said()).toContain('made before the mic was inverted: open the one made after');
    say(sure('inverted', 3, 9));
    const opened = meter.open({ type: 'recording', files: [], mode: 'analyse' });
    await settle();
    await openings.at(-1)?.letIn();
    await opened;
    say(sure('same'));
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({
      before: { polarity: 'inverted', bInverted: false },
      after: { polarity: 'same', bInverted: true },
      done: { inverted: 'b' },
    });
  });
});

describe('a second look', () => {
  async function looking(): Promise<Bench> {
    const made = await live();
    made.round.begin(BOTTOM);
    made.round.enter();
    made.say(sure('same', 3));
    made.round.enter();
    made.clock.ms += 50 * 60_000;
    made.round.beginCheck();
    made.round.enter();
    return made;
  }
  const clock = (ms: number): string => {
    const at = new Date(ms);
    return `${String(at.getHours()).padStart(2, '0')}:${String(at.getMinutes()).padStart(2, '0')}`;
  };

  test('as it was: noted with its time, back to the sheet, the accepted reading stands', async () => {
    const { meter, round, shelf, say } = await looking();
    expect([round.mode(), round.pair()?.id]).toEqual(['check', BOTTOM]);
    say(sure('same', 3.1));
    expect(round.compared()?.change).toBe('same');
    expect(round.changes()).toEqual([]);
    round.enter();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({
      before: { takenAt: '2026-01-02T14:10:00.000Z' },
      checked: { checkedAt: '2026-01-02T15:00:00.000Z', change: 'same' },
    });
    expect([round.pair(), meter.page()]).toEqual([null, 'kit']);
  });

  test('the meter is told what was accepted (3 cm: 0.0874 ms), and nothing of it in a round that measures', async () => {
    const { round, openings } = await looking();
    const told = () => openings[0]?.log.filter((line) => line.startsWith('restart')).at(-1);
    expect(told()).toMatch(/ known 0\.0874\d*$/);
    round.begin(BOTTOM);
    round.enter();
    expect(told()).not.toContain('known');
  });

  test('while the next pair is being patched the meter knows nothing of the one before', async () => {
    const { round, meter, openings } = await looking();
    round.begin(BOTTOM, 'check');
    meter.startOver();
    expect(openings[0]?.log.at(-1)).toMatch(/^restart /);
    expect(openings[0]?.log.at(-1)).not.toContain('known');
  });

  test('what was accepted is told as the switches stand now', async () => {
    const { round, shelf, openings } = await looking();
    shelf.change((sheet) => changeMicrophone(sheet, 'snareBottom', { inverted: true }));
    expect(openings[0]?.log.at(-1)).toMatch(/^restart .* known -0\.0874\d*$/);
    round.stop();
  });

  test('a knock during a take raises one notice with the time, and none again while it stands', async () => {
    const { round, say, clock: now } = await looking();
    say(sure('same', 3));
    const knocked = now.ms;
    say(sure('same', 5.4, 4));
    say(sure('same', 5.4, 5));
    say(sure('same', 5.3, 6));
    expect(round.changes()).toHaveLength(1);
    expect(round.changes()[0]?.text).toBe(
      `Snare bottom: 2.4 cm further than at ${clock(Date.UTC(2026, 0, 2, 14, 10))}. Stop the drummer, then check both stands.`,
    );
    expect(round.changes()[0]?.at).toBe(new Date(knocked).toISOString());
    // put back: that is news again
    say(sure('same', 3, 4));
    expect(round.changes()).toHaveLength(2);
    expect(round.changes()[0]?.text).toContain('as at');
  });

  test('another polarity; and what stands from now on', async () => {
    const { round, shelf, say } = await looking();
    say(sure('inverted', 3));
    expect(round.changes()[0]?.text).toContain('polarity inverted since');
    round.takeNew();
    const kept = pairOf(shelf, BOTTOM);
    expect(kept).toMatchObject({ before: { polarity: 'inverted' }, after: null, done: null, checked: null });
    // nobody pressed a switch that we know of
    expect(switchOf(shelf, 'snareBottom')).toBe(false);
  });

  test('what was done and noted before stays on the sheet when the new reading stands', async () => {
    const { round, shelf, say } = await looking();
    const [one] = [pairOf(shelf, BOTTOM)];
    const done = {
      inverted: 'b',
      movedCm: null,
      later: null,
      leftOnPurpose: false,
      note: 'at the preamp',
    } as const;
    shelf.change((sheet) => recordPair(sheet, BOTTOM, { ...one, after: one.before, done }));
    say(sure('same', 6));
    round.takeNew();
    expect(pairOf(shelf, BOTTOM)).toMatchObject({ before: one.before, after: { hits: 8 }, done });
  });

  test('a switch that was pressed since is counted', async () => {
    const { round, shelf, say } = await looking();
    shelf.change((sheet) => changeMicrophone(sheet, 'snareBottom', { inverted: true }));
    say(sure('inverted', 3));
    expect(round.compared()?.change).toBe('same');
  });

  test('keys of the first round do nothing here: an unsure reading doesn’t replace what was accepted', async () => {
    const { round, shelf, say } = await looking();
    const before = pairOf(shelf, BOTTOM);
    say(reading({ state: 'unclear', reason: 'hits-disagree', hits: 9, hitsUsed: 2 }));
    round.acceptUnsure();
    expect(pairOf(shelf, BOTTOM)).toEqual(before);
  });

  test('the meter’s invert is no change of the pair', async () => {
    const { meter, round, say } = await looking();
    say(sure('same'));
    meter.setInvertB(true);
    say(sure('inverted', 3, 9));
    expect([round.compared()?.change, round.changes()]).toEqual(['same', []]);
  });

  test('with several drums the one that is as accepted is meant; where none is, that is said, and no stand blamed', async () => {
    const { round, say } = await looking();
    const snare = sure('same', 3);
    const other = changed(sure('same', 40), { drum: 2, drums: [] });
    const heard = { hits: 8, hitsPooled: 8, hitsUsed: 8, agreement: 1, uncertaintySamples: 1 };
    const facts = { levelADbfs: -6, levelBDbfs: -9, centreHz: 200 };
    const drumLike = (id: number, one: Reading, polarity = answerOf(one).polarity): DrumReading => {
      const { delaySamples, spreadSamples } = answerOf(one);
      return drum(id, { ...heard, ...facts, polarity, delaySamples, spreadSamples });
    };
    const drums = [drumLike(1, snare), drumLike(2, other)];
    const far = drumLike(1, other, 'same');
    say({ ...other, drums: [drums[1] as DrumReading, far] });
    expect([round.compared(), round.whichDrum(), round.changes()]).toEqual([null, true, []]);
    say({ ...other, drums });
    expect([round.compared()?.change, round.whichDrum()]).toEqual(['same', false]);
    // known now: when it moves, it is told
    say({ ...other, drums: [far, drums[1] as DrumReading] });
    expect(round.compared()?.change).toBe('moved');
  });

  test('a finding that was put right is put right on the sheet too', async () => {
    const { meter, round, shelf, say } = await looking();
    say(sure('same'));
    meter.swap();
    say(sure('same', -3, 4));
    expect(pairOf(shelf, BOTTOM).checked?.change).toBe('moved');
    meter.swap();
    say(sure('same', 3, 4));
    expect(pairOf(shelf, BOTTOM).checked?.change).toBe('same');
    expect(round.changes()[0]?.text).toContain('as at');
  });

  test('an unsure reading compares with nothing', async () => {
    const { round, shelf, say } = await looking();
    say(reading({ state: 'unclear', reason: 'hits-disagree', hits: 9, hitsUsed: 2 }));
    round.enter();
    expect(round.said()).toContain('Nothing to compare yet');
    expect(pairOf(shelf, BOTTOM).checked).toBeNull();
  });
});

describe('the demo kit', () => {
  async function playing(): Promise<Bench> {
    const made = await bench([KICK, SNARE]);
    const opened = made.meter.open({ type: 'demo', scene: KICK });
    await settle();
    await made.openings[0]?.letIn();
    await opened;
    return made;
  }

  test('the pair’s scene is opened by itself, and dressed as the pair', async () => {
    const { round, openings, settings, meter } = await playing();
    round.begin(BOTTOM);
    await settle();
    await openings[1]?.letIn();
    const source = meter.source();
    expect(source?.type === 'demo' && source.scene.id).toBe(SNARE.id);
    expect([round.patching(), ...settings.labels()]).toEqual([false, 'Snare top', 'Snare bottom']);
  });

  test('B’s switch of the sheet is heard, and isn’t the meter’s invert', async () => {
    const { round, openings, meter, shelf, say } = await playing();
    round.begin(BOTTOM);
    await settle();
    await openings[1]?.letIn();
    say(sure('inverted'));
    round.inverted('b');
    expect([meter.switchedB(), meter.invertB(), meter.context().invertB]).toEqual([true, false, false]);
    expect(openings[1]?.log).toContain('invert true');
    say(sure('same', 3, 4));
    expect(round.now()).toMatchObject({ polarity: 'same', bInverted: true });
    shelf.undo();
    expect(meter.switchedB()).toBe(false);
  });

  test('isn’t swapped in a round, and is put right where it was', async () => {
    const { round, meter } = await playing();
    meter.swap();
    round.begin('kickIn-kickOut');
    expect(meter.swapped()).toBe(false);
    expect([round.refusesSwap(), round.said()]).toEqual([true, expect.stringContaining('no swap')]);
  });

  test('a scene of no pair of the sheet is read for none', async () => {
    const { round, shelf, meter, openings, say } = await playing();
    round.begin('kickIn-kickOut');
    const opened = meter.open({ type: 'demo', scene: { ...SNARE, id: 'unrelated', kind: 'other' } });
    await settle();
    await openings.at(-1)?.letIn();
    await opened;
    say(sure('same', 3));
    expect([round.patching(), round.now(), round.said()]).toEqual([
      true,
      null,
      expect.stringContaining('is of another pair'),
    ]);
    // it is read all the same, but nothing of it stands under the pair's name
    expect([round.covered(), meter.reading() === null]).toEqual([true, false]);
    round.enter();
    expect(pairOf(shelf, 'kickIn-kickOut')).toMatchObject({ before: null, acceptedAt: null });
  });

  test('choosing a scene is choosing its pair; one that is of no pair is said by its name, not hidden', async () => {
    const { round, openings, meter } = await playing();
    round.begin('kickIn-kickOut');
    expect(round.patching()).toBe(false);
    const opened = meter.open({ type: 'demo', scene: SNARE });
    await settle();
    await openings[1]?.letIn();
    await opened;
    expect(round.pair()?.id).toBe(BOTTOM);
  });

  test('pairs that have no scene are passed over; then back to the sheet', async () => {
    const { round, openings, meter, say, clock } = await playing();
    round.begin('kickIn-kickOut');
    say(sure('same', 35));
    round.enter();
    clock.ms += 1000;
    await settle();
    await openings[1]?.letIn();
    expect(round.pair()?.id).toBe(BOTTOM);
    say(sure('same', 2.6));
    round.enter();
    expect([round.pair(), meter.page()]).toEqual([null, 'kit']);
  });
});
