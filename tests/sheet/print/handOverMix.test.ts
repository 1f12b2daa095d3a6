import { describe, expect, test } from 'vitest';
import { newPair, type Pair, type Taken } from '../../../src/sheet/document/model';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { handOver } from '../../../src/sheet/print/handOver';
import { DONE, start, withPairs } from '../../support/readings/sheets';
import { TAKEN } from '../../support/readings/taken';

const same = (delayMs: number, more: Partial<Taken> = {}): Taken => ({
  ...TAKEN,
  polarity: 'same',
  fuller: 'as-is',
  fullerDb: 4,
  delayMs,
  ...more,
});
const inverted = (delayMs: number, more: Partial<Taken> = {}): Taken => ({ ...TAKEN, delayMs, ...more });
const eight = start('eight');

describe('what to invert', () => {
  const read = withPairs(eight, {
    'snareTop-snareBottom': { before: inverted(0.1) },
    'snareTop-overheadLeft': { before: same(3) },
    'overheadLeft-overheadRight': { before: same(0) },
  });

  test('a reading that nobody accepted asks for nothing and gives no delay', () => {
    const pairs = read.pairs.map((pair): Pair => ({ ...pair, acceptedAt: null }));
    const told = handOver({ ...read, pairs });
    expect(told.inTheMix.invert).toEqual(['No reading says which polarity is fuller.']);
    expect(told.microphones.flatMap(({ delays }) => delays.map(({ text }) => text))).not.toContainEqual(
      expect.stringMatching(/\d/),
    );
  });

  test('what was left on purpose is held as it was accepted: nothing is asked that would turn it', () => {
    // the snare would have its overhead inverted; the two overheads were left as they are
    const sheet = withPairs(eight, {
      'snareTop-overheadLeft': { before: inverted(3) },
      'overheadLeft-overheadRight': { before: same(0.1), done: { ...DONE, leftOnPurpose: true, note: 'wide' } },
      'snareTop-overheadRight': { before: same(3) },
    });
    const ids = kitSystem(sheet).switches?.change ?? [];
    expect(ids.includes('overheadLeft')).toBe(ids.includes('overheadRight'));
  });

  test('the one that the readings ask for, and why', () => {
    expect(handOver(read).inTheMix.invert).toEqual(['Snare bottom: fuller with Snare top by 8 dB (177–354 Hz).']);
  });

  test('a switch that stands at inverted is told', () => {
    const turned = read.microphones.map((one) => ({ ...one, inverted: one.id === 'snareBottom' }));
    const sheet = withPairs(
      { ...read, microphones: turned },
      { 'snareTop-snareBottom': { before: inverted(0.1, { bInverted: true, fullerDb: null, fullerLowHz: null }) } },
    );
    expect(handOver(sheet).inTheMix.invert).toEqual([
      'Snare bottom (its switch stands at inverted): fuller with Snare top.',
    ]);
  });

  test('two that go together are told so', () => {
    const sheet = withPairs(eight, {
      'snareTop-snareBottom': { before: same(0.1) },
      'overheadLeft-overheadRight': { before: same(0) },
      'snareTop-overheadLeft': { before: inverted(3, { fullerDb: 5 }) },
    });
    const said = handOver(sheet).inTheMix.invert;
    expect(said).toHaveLength(2);
    expect(said[0]).toBe(
      'Snare top: fuller with Snare bottom, turned as well, by 4 dB (177–354 Hz); fuller with Overhead left by 5 dB (177–354 Hz).',
    );
  });

  test('no pair is a reason that isn’t met or wasn’t asked', () => {
    const third = newPair('third', 'snareBottom', 'overheadLeft', 'other', 'snare');
    const sheet = withPairs(
      { ...read, pairs: [...read.pairs, third] },
      { third: { before: same(3, { fullerDb: 2 }) }, 'kickOut-overheadLeft': { before: same(4) } },
    );
    expect(handOver(sheet).inTheMix.invert).toEqual(['Snare bottom: fuller with Snare top by 8 dB (177–354 Hz).']);
    const left = withPairs(eight, {
      'snareTop-snareBottom': { before: same(0.1) },
      'snareTop-overheadLeft': { before: inverted(3) },
      'kickOut-overheadLeft': { before: inverted(4) },
    });
    expect(handOver(left).inTheMix.invert).toEqual(['Overhead left: fuller with Snare top by 8 dB (177–354 Hz).']);
  });

  test('left on purpose: it is told with its note, and asks for nothing', () => {
    const sheet = withPairs(eight, {
      'snareTop-snareBottom': { before: inverted(0.1), done: { ...DONE, leftOnPurpose: true, note: 'wanted thin' } },
    });
    expect(handOver(sheet).inTheMix).toMatchObject({
      invert: ['No reading says which polarity is fuller.'],
      left: ['Snare top → Snare bottom (snare): “wanted thin”'],
      wishes: [],
    });
    expect(handOver(sheet).pairs[0]?.done).toBe('left on purpose; “wanted thin”');
  });
});

describe('what to nudge', () => {
  const nudge = (delayLaterMs: number | null, movedCm: number | null = null): string[] =>
    handOver(
      withPairs(
        { ...eight, sampleRate: 44100 },
        { 'snareTop-overheadLeft': { before: same(3), done: { ...DONE, delayLaterMs, movedCm } } },
      ),
    ).inTheMix.nudge;

  test('positive delays B, negative A, in samples of the recording', () => {
    // by hand: 3 ms · 44.1 = 132.3
    expect(nudge(3).slice(0, 1)).toEqual([
      'Overhead left later by 3 ms (132 samples), to meet Snare top on the snare.',
    ]);
    expect(nudge(-3).slice(0, 1)).toEqual([
      'Snare top later by 3 ms (132 samples), to meet Overhead left on the snare.',
    ]);
    expect(nudge(0.02).slice(0, 1)).toEqual([
      'Overhead left later by 0.02 ms (1 sample), to meet Snare top on the snare.',
    ]);
  });

  test('nothing noted, nothing said; a move besides is told', () => {
    expect(nudge(null)).toEqual([]);
    expect(nudge(0)).toEqual([]);
    expect(nudge(3)[1]).toBe('What was aligned with a nudged one has to go along by the same.');
    expect(nudge(3, 2)[0]).toMatch(/; B was moved as well\.$/);
  });
});

describe('what can’t be had', () => {
  test('wishes that weren’t asked say for whose sake, and how they come out', () => {
    const sheet = withPairs(eight, {
      'snareTop-overheadLeft': { before: same(3) },
      'kickOut-overheadLeft': { before: inverted(4, { sure: false }) },
      'highTom-overheadLeft': { before: same(2) },
    });
    expect(handOver(sheet).inTheMix.wishes).toEqual([
      'Not asked, as Overhead left follows the snare: Kick out → Overhead left (kick) with one inverted by 8 dB (177–354 Hz), not sure, not met; High tom → Overhead left (high tom) as they stand now by 4 dB (177–354 Hz), met all the same.',
    ]);
  });

  test('the one that follows another drum is named, not the other one', () => {
    const kick = eight.follows.map((one) => (one.microphone === 'overheadRight' ? { ...one, drum: 'kick' } : one));
    const sheet = withPairs({ ...eight, follows: kick }, { 'overheadLeft-overheadRight': { before: same(0) } });
    expect(handOver(sheet).inTheMix.wishes[0]).toMatch(/^Not asked, as Overhead right follows the kick: /);
  });

  test('the weakest of three that contradict each other gives way', () => {
    const sheet = withPairs(start('four'), {
      'overheadLeft-overheadRight': { before: same(0.1, { fullerDb: 5 }) },
      'snareTop-overheadLeft': { before: same(3, { fullerDb: 6 }) },
      'snareTop-overheadRight': { before: inverted(3.1, { fullerDb: 2 }) },
    });
    const told = handOver(sheet);
    expect(told.inTheMix.invert).toEqual(['Nothing: as the switches stand, the most that can be had together is met.']);
    expect(told.inTheMix.wishes).toEqual([
      'Can’t be had together with the others: Snare top → Overhead right (snare) with one inverted by 2 dB (177–354 Hz).',
    ]);
    expect(told.doubts[0]).toMatch(/^Snare: the polarities of .* can’t all be true\.$/);
    for (const name of ['Overhead left → Overhead right', 'Snare top → Overhead left', 'Snare top → Overhead right'])
      expect(told.doubts[0]).toContain(name);
    expect(told.doubts[1]).toMatch(/^Snare: may be wrong, the likeliest first: .*Snare top → Overhead right/);
  });
});

describe('several on one drum', () => {
  const kit = start('eleven');
  const third = newPair('third', 'kickIn', 'kickDriver', 'low-end-driver', 'kick');
  const three = { ...kit, pairs: [...kit.pairs, third] };
  const of = (re: number, more: Partial<Taken> = {}): Taken => ({
    ...TAKEN,
    polarity: null,
    delayMs: null,
    fuller: null,
    fullerDb: null,
    lowCoherency: re,
    octaveCoherency: [null, re, null, null],
    fullerLowHz: 88.4,
    fullerHighHz: 176.8,
    ...more,
  });
  const groups = (first: Taken, second: Partial<Pair>, last: Taken): string[] =>
    handOver(
      withPairs(three, { 'kickIn-kickOut': { before: first }, 'kickOut-kickDriver': second, third: { before: last } }),
    ).inTheMix.groups;

  // by hand: 10·lg(6.8/2.4) = 4.52 dB
  test('which to turn, for how much; and that the hits were others', () => {
    // no pair says which way it is fuller: nothing that could disagree
    expect(groups(of(0.8), { before: of(-0.5, { take: 'take 2' }) }, of(-0.6))).toEqual([
      'Kick, 3 together: Kick low-end driver turned gives 4.5 dB more, 88–177 Hz (different hits).',
    ]);
    const agreed = of(-0.5, { fuller: 'inverted', fullerDb: 5 });
    expect(groups(of(0.8, { fuller: 'as-is', fullerDb: 6 }), { before: agreed }, of(-0.6))).toEqual([
      'Kick, 3 together: Kick low-end driver turned gives 4.5 dB more, 88–177 Hz.',
    ]);
  });

  test('where the pairs’ own wishes come out otherwise, that is told', () => {
    const otherwise = { fuller: 'as-is', fullerDb: 2 } as const;
    const one = groups(of(0.8, otherwise), { before: of(-0.5) }, of(-0.6, otherwise));
    expect(one).toEqual([
      'Kick, 3 together: Kick low-end driver turned gives 4.5 dB more, 88–177 Hz; by all pairs, as under Invert, it is otherwise.',
    ]);
    const turned = groups(of(0.8), { before: of(0.5) }, of(0.6, { fuller: 'inverted', fullerDb: 2 }));
    expect(turned).toEqual([
      'Kick, 3 together: fullest as they stand, 88–177 Hz; by all pairs, as under Invert, it is otherwise.',
    ]);
  });

  test('turning all the others comes to the same', () => {
    const above = ['overheadLeft', 'overheadRight'].map((id) =>
      newPair(`driver-${id}`, 'kickDriver', id, 'other', 'kick'),
    );
    const asIs = same(0.1, { fullerDb: 6 });
    const sheet = withPairs(
      { ...three, pairs: [...three.pairs, ...above], follows: [] },
      {
        'kickIn-kickOut': { before: of(0.8, { fuller: 'as-is', fullerDb: 6 }) },
        'kickOut-kickDriver': { before: of(-0.5, { fuller: 'inverted', fullerDb: 5 }) },
        third: { before: of(-0.6) },
        'driver-overheadLeft': { before: asIs },
        'driver-overheadRight': { before: asIs },
      },
    );
    const { invert, groups: said } = handOver(sheet).inTheMix;
    expect(invert.map((text) => text.split(':')[0])).toEqual(['Kick in', 'Kick out']);
    expect(said).toEqual(['Kick, 3 together: Kick low-end driver turned gives 4.5 dB more, 88–177 Hz.']);
  });

  test('what is fullest stays; what isn’t known is called so', () => {
    expect(groups(of(0.8), { before: of(0.5) }, of(0.6))).toEqual([
      'Kick, 3 together: fullest as they stand, 88–177 Hz.',
    ]);
    expect(groups(of(0.8), {}, of(0.6))).toEqual([
      'Kick, 3 together: not known; of its 3 pairs 1 has no low band read.',
    ]);
    const elsewhere = of(0.5, { octaveCoherency: [0.5, null, null, null], fullerLowHz: 44.2 });
    expect(groups(of(0.8), { before: elsewhere }, of(0.6))).toEqual([
      'Kick, 3 together: not known; no low band is common to all of them.',
    ]);
  });
});
