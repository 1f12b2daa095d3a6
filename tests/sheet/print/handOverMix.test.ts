import { describe, expect, test } from 'vitest';
import { type KitSheet, newPair, type Pair, type Taken } from '../../../src/sheet/document/model';
import { handOver } from '../../../src/sheet/print/handOver';
import { DONE, start, withPairs } from '../../support/readings/sheets';
import { planned, TAKEN, timing, UNPLANNED } from '../../support/readings/taken';

/** Fuller as it is: inverted it loses 7.5 dB in the drum’s low octave and 4.8 dB overall. */
const same = (delayMs: number, more: Partial<Taken> = {}): Taken => ({
  ...TAKEN,
  polarity: 'same',
  fuller: 'as-is',
  delayMs,
  ...planned(timing(0.7, 0.5)),
  ...more,
});
const inverted = (delayMs: number, more: Partial<Taken> = {}): Taken => ({ ...TAKEN, delayMs, ...more });
const eight = start('eight');
const lineOf = (sheet: KitSheet, a: string, b: string): string | undefined =>
  handOver(sheet).pairs.find((row) => row.a === a && row.b === b)?.line;

describe('what to invert', () => {
  const read = withPairs(eight, {
    'snareTop-snareBottom': { before: inverted(0.1) },
    'snareTop-overheadLeft': { before: same(3) },
    'overheadLeft-overheadRight': { before: same(0) },
  });

  test('a reading that nobody accepted asks for nothing and gives no delay', () => {
    const pairs = read.pairs.map((pair): Pair => ({ ...pair, acceptedAt: null }));
    const told = handOver({ ...read, pairs });
    expect(told.inTheMix.invert).toEqual(['No reading to go by.']);
    expect(told.microphones.flatMap(({ delays }) => delays.map(({ text }) => text))).not.toContainEqual(
      expect.stringMatching(/\d/),
    );
    // its plan is told as just that
    expect(told.pairs[0]?.line).toMatch(/^Plan, not accepted: invert Snare bottom: \+7\.5 dB/);
  });

  test('the one that the readings ask for; with the pair stands what it gains', () => {
    expect(handOver(read).inTheMix).toMatchObject({
      invert: ['Snare bottom: against Snare top.'],
      pays: [],
      delay: [],
    });
    expect(lineOf(read, 'Snare top', 'Snare bottom')).toBe(
      'In the mix: invert Snare bottom: +7.5 dB in the drum’s low octave (177–354 Hz) and +5 dB overall.',
    );
    expect(lineOf(read, 'Snare top', 'Overhead left')).toBe('In the mix: nothing left to do.');
  });

  test('top and bottom alone: never the reference', () => {
    const sheet = withPairs(eight, { 'snareTop-snareBottom': { before: inverted(0.1) } });
    expect(handOver(sheet).inTheMix.invert).toEqual(['Snare bottom: against Snare top.']);
  });

  test('a switch that stands at inverted is told', () => {
    const turned = read.microphones.map((one) => ({ ...one, inverted: one.id === 'snareBottom' }));
    const sheet = withPairs(
      { ...read, microphones: turned },
      { 'snareTop-snareBottom': { before: inverted(0.1, { bInverted: true }) } },
    );
    expect(handOver(sheet).inTheMix.invert).toEqual([
      'Snare bottom (recorded inverted: invert it again): against Snare top.',
    ]);
  });

  test('two that go together are told so, and that nothing changes between them', () => {
    const sheet = withPairs(
      { ...eight, references: [{ drum: 'snare', microphone: 'overheadLeft' }] },
      {
        'snareTop-snareBottom': { before: same(0.1) },
        'overheadLeft-overheadRight': { before: same(0) },
        'snareTop-overheadLeft': { before: inverted(3) },
      },
    );
    expect(handOver(sheet).inTheMix.invert).toEqual([
      'Snare top: against Overhead left, together with Snare bottom.',
      'Snare bottom: together with Snare top.',
    ]);
    expect(lineOf(sheet, 'Snare top', 'Snare bottom')).toBe(
      'In the mix: invert Snare top and Snare bottom: nothing changes between the two.',
    );
  });

  test('left on purpose: it is told with its note, and asks for nothing', () => {
    const sheet = withPairs(eight, {
      'snareTop-snareBottom': { before: inverted(0.1), done: { ...DONE, leftOnPurpose: true, note: 'wanted thin' } },
    });
    expect(handOver(sheet).inTheMix.invert).toEqual(['Nothing to do: leave the polarity switches as they are.']);
    expect(handOver(sheet).pairs[0]?.line).toBe('Left on purpose: “wanted thin”.');
  });

  test('a reading of which nothing was recommended: the facts, and no instruction beside them', () => {
    const old = { timings: [timing(-0.7, null)], plan: null };
    const sheet = withPairs(eight, { 'snareTop-snareBottom': { before: inverted(0.1, old) } });
    expect(handOver(sheet).inTheMix.invert).toEqual(['No reading to go by.']);
    expect(handOver(sheet).pairs[0]?.line).toBe(
      'In the mix: no recommendation (8 dB fuller in the drum’s low octave with one inverted; overall unknown, needs another measurement).',
    );
  });
});

describe('what to delay', () => {
  const LATER = timing(0.9, 0.9, { delayMs: 3 });
  const delayed = (delayMs: number, more: Record<string, Partial<Pair>> = {}): KitSheet =>
    withPairs(
      { ...eight, sampleRate: 44100 },
      {
        ...more,
        'snareTop-overheadLeft': {
          before: same(3, planned(timing(0.1, 0.1), { ...LATER, delayMs })),
          done: { ...DONE, later: { invertB: false, delayMs } },
        },
      },
    );

  test('positive delays A, negative B, in samples of the recording; whole, with both polarities and what it gains', () => {
    // by hand: 3 ms · 44.1 = 132.3; 10·lg(1.9/1.1)
    expect(handOver(delayed(3)).inTheMix.delay).toEqual([
      'Snare top by 3 ms (132 samples), to line up with Overhead left on the snare.',
    ]);
    expect(lineOf(delayed(3), 'Snare top', 'Overhead left')).toBe(
      'In the mix: delay Snare top by 3 ms (132 samples); leave both polarities: +2.5 dB in the drum’s low octave (177–354 Hz) and +2.5 dB overall.',
    );
    expect(handOver(delayed(-3)).inTheMix.delay).toEqual([
      'Overhead left by 3 ms (132 samples), to line up with Snare top on the snare.',
    ]);
    expect(lineOf(delayed(-3), 'Snare top', 'Overhead left')).toMatch(/delay Overhead left by 3 ms/);
  });

  test('sum and arrival disagree: the delay and the polarity that goes with it stand together', () => {
    const sheet = withPairs(eight, {
      'snareTop-overheadLeft': {
        before: same(2.76, planned(timing(-0.3, -0.3), timing(-0.9, -0.8, { delayMs: 2.76 }))),
      },
    });
    const told = handOver(sheet);
    expect(told.inTheMix).toMatchObject({
      invert: ['Overhead left: against Snare top.'],
      delay: ['Snare top by 2.76 ms (132 samples), to line up with Overhead left on the snare.'],
    });
    expect(told.pairs[0]?.line ?? '').toBe(
      'In the mix: invert Overhead left and delay Snare top by 2.76 ms (132 samples): +4.5 dB in the drum’s low octave (177–354 Hz) and +4 dB overall.',
    );
  });

  test('what was aligned with it goes along; nothing to delay, nothing said', () => {
    expect(handOver(delayed(3, { 'snareTop-snareBottom': { before: same(0.1) } })).inTheMix.delay).toEqual([
      'Snare top by 3 ms (132 samples), to line up with Overhead left on the snare; Snare bottom by the same amount.',
    ]);
    expect(handOver(eight).inTheMix.delay).toEqual([]);
  });

  test('one from an older sheet, whose gain nobody knows, is told so', () => {
    const done = { ...DONE, later: { invertB: true, delayMs: 3 } };
    const sheet = withPairs(eight, { 'snareTop-overheadLeft': { before: inverted(3, UNPLANNED), done } });
    expect(lineOf(sheet, 'Snare top', 'Overhead left')).toBe(
      'In the mix: invert Overhead left and delay Snare top by 3 ms (144 samples): what A+B gains is unknown.',
    );
  });
});

describe('pairs that give way', () => {
  test('for whose sake, and what it costs', () => {
    const sheet = withPairs(eight, {
      'snareTop-overheadLeft': { before: same(3) },
      'kickOut-overheadLeft': { before: inverted(4) },
      'highTom-overheadLeft': { before: same(2) },
    });
    expect(handOver(sheet).inTheMix.pays).toEqual([
      'Kick out → Overhead left (kick): ±0 dB in the drum’s low octave (177–354 Hz) and ±0 dB overall, instead of +7.5 dB and +5 dB with the plan for this pair alone (invert Overhead left), because Overhead left goes with the snare.',
    ]);
  });

  test('the weakest of three that contradict each other gives way, and says for which pair', () => {
    const sheet = withPairs(start('four'), {
      'overheadLeft-overheadRight': { before: same(0.1) },
      'snareTop-overheadLeft': { before: same(3) },
      'snareTop-overheadRight': { before: inverted(3.1, planned(timing(-0.2, -0.2))) },
    });
    const told = handOver(sheet);
    expect(told.inTheMix.invert).toEqual(['Nothing to do: leave the polarity switches as they are.']);
    expect(told.inTheMix.pays).toHaveLength(1);
    expect(told.inTheMix.pays[0]).toMatch(
      /^Snare top → Overhead right \(snare\): ±0 dB in the drum’s low octave \(177–354 Hz\) and ±0 dB overall, instead of \+2 dB with the plan for this pair alone \(invert Overhead right\), because \S.* stays as it is for \S.* → \S.*\.$/,
    );
    expect(lineOf(sheet, 'Snare top', 'Overhead right')).toBe('In the mix: nothing left to do.');
    expect(told.doubts[0]).toMatch(/^Snare: the polarities of .* can’t all be right\.$/);
    for (const name of ['Overhead left → Overhead right', 'Snare top → Overhead left', 'Snare top → Overhead right'])
      expect(told.doubts[0]).toContain(name);
    expect(told.doubts[1]).toMatch(/^Snare: most likely wrong, in this order: .*Snare top → Overhead right/);
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
    ...UNPLANNED,
    ...more,
  });
  const groups = (first: Taken, second: Partial<Pair>, last: Taken): string[] =>
    handOver(
      withPairs(three, { 'kickIn-kickOut': { before: first }, 'kickOut-kickDriver': second, third: { before: last } }),
    ).inTheMix.groups;
  const asks = (re: number) => of(re, planned(timing(re, re)));

  // by hand: 10·lg(6.8/2.4) = 4.52 dB
  test('what the kit’s switches give, and that the hits were others; no other instruction', () => {
    expect(groups(asks(0.8), { before: asks(-0.5) }, asks(-0.6))).toEqual([
      'Kick, 3 together: +4.5 dB at 88–177 Hz with the switches above, the best that polarity can do.',
    ]);
    expect(groups(asks(0.8), { before: { ...asks(-0.5), run: 'run 2' } }, asks(-0.6))).toEqual([
      'Kick, 3 together: +4.5 dB at 88–177 Hz (pairs measured on different hits) with the switches above, the best that polarity can do.',
    ]);
  });

  test('where the kit leaves something, how much', () => {
    expect(groups(of(0.8), { before: of(-0.5) }, of(-0.6))).toEqual([
      'Kick, 3 together: as they are now at 88–177 Hz; other switch settings could give +4.5 dB more there.',
    ]);
  });

  test('with a delay between them nobody knows; a delay of all of them changes nothing', () => {
    const later = of(0.8, planned(timing(0.5, 0.2), timing(0.85, 0.9, { delayMs: 1 })));
    expect(groups(later, { before: of(0.5) }, of(0.6))).toEqual(['Kick, 3 together: unknown with the delays above.']);
    const along = withPairs(three, {
      'kickIn-kickOut': { before: of(0.8) },
      'kickOut-kickDriver': { before: of(0.5) },
      third: { before: of(0.6) },
      'kickOut-overheadLeft': { before: same(3, planned(timing(0, 0), timing(0.8, 0.8, { delayMs: 3 }))) },
    });
    expect(handOver(along).inTheMix.delay[0]).toMatch(
      /^Kick out by 3 ms .*; Kick in and Kick .* by the same amount\.$/,
    );
    expect(handOver(along).inTheMix.groups).toEqual([
      'Kick, 3 together: as they are now at 88–177 Hz, the best that polarity can do.',
    ]);
  });

  test('what is fullest stays; what isn’t known is called so', () => {
    expect(groups(of(0.8), { before: of(0.5) }, of(0.6))).toEqual([
      'Kick, 3 together: as they are now at 88–177 Hz, the best that polarity can do.',
    ]);
    expect(groups(of(0.8), {}, of(0.6))).toEqual([
      'Kick, 3 together: unknown; of its 3 pairs, 1 has no low octave measured.',
    ]);
    const elsewhere = of(0.5, { octaveCoherency: [0.5, null, null, null], fullerLowHz: 44.2 });
    expect(groups(of(0.8), { before: elsewhere }, of(0.6))).toEqual([
      'Kick, 3 together: unknown; they have no low octave in common.',
    ]);
  });
});
