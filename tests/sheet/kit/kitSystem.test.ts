import { describe, expect, test } from 'vitest';
import { LOW_OCTAVES_HZ } from '../../../src/reading/bands';
import { MOST_MICROPHONES } from '../../../src/sheet/document/fileLimits';
import { type KitSheet, newMicrophone, newPair, type Pair, type Taken } from '../../../src/sheet/document/model';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { inverted, read, taken } from '../../support/readings/kits';
import { start } from '../../support/readings/sheets';

const drumOf = (sheet: KitSheet, drum: string) => {
  const found = kitSystem(sheet).drums.find((one) => one.drum === drum);
  if (!found) throw new Error(`no ${drum}`);
  return found;
};
describe('one drum', () => {
  const four = start('four');
  const snare = {
    'overheadLeft-overheadRight': taken('same', 0.1),
    'snareTop-overheadLeft': taken('same', 3),
    'snareTop-overheadRight': taken('same', 3.1),
  };

  test('delays of its microphones against its reference; readings that agree contradict nothing', () => {
    const found = drumOf(read(four, snare), 'snare');
    const told = Object.fromEntries(found.delays.map(({ microphone, delayMs }) => [microphone, delayMs]));
    // the reference is the first pair's A
    expect(found.reference).toBe('overheadLeft');
    expect(told.snareTop).toBeCloseTo(-3, 9);
    expect(told.overheadRight).toBeCloseTo(0.1, 9);
    expect(found).toMatchObject({ contradiction: [], suspects: [], open: [], next: null });
  });

  test('three that can’t all be are named, the least sure of them first; and it is to be measured again', () => {
    const odd = { ...snare, 'snareTop-overheadRight': taken('inverted', 3.1, null, { agreement: 0.76 }) };
    const found = drumOf(read(four, odd), 'snare');
    expect([...found.contradiction].sort()).toEqual(Object.keys(snare).sort());
    expect(found.suspects[0]).toBe('snareTop-overheadRight');
    expect(found.next).toEqual({ pair: 'snareTop-overheadRight', why: 'again' });
  });

  test('delays that don’t close are named with their error', () => {
    const found = drumOf(read(four, { ...snare, 'snareTop-overheadRight': taken('same', 3.4) }), 'snare');
    expect(found.open).toHaveLength(1);
    expect(Math.abs(found.open[0]?.errorMs as number)).toBeCloseTo(0.3, 9);
    expect(found.contradiction).toEqual([]);
  });

  test('a switch that was changed since counts: the reading still says the same of the microphones', () => {
    const sheet = read(four, { ...snare, 'snareTop-overheadRight': taken('inverted', 3.1, null, { aInverted: true }) });
    expect(drumOf(sheet, 'snare').contradiction).toEqual([]);
    expect(drumOf(inverted(sheet, 'snareTop', 'overheadLeft'), 'snare').contradiction).toEqual([]);
  });

  test('an unsure reading says nothing; then the next pair is one that nothing joins yet', () => {
    const found = drumOf(read(four, { 'snareTop-overheadLeft': taken('same', 3, null, { sure: false }) }), 'snare');
    expect(found.delays.filter(({ delayMs }) => delayMs !== null)).toHaveLength(1);
    expect(found.next).toEqual({ pair: 'overheadLeft-overheadRight', why: 'joins' });
  });

  test('delays never pass from one drum to another', () => {
    const sheet = read(four, { ...snare, 'kickOut-overheadLeft': taken('inverted', 5) });
    expect(drumOf(sheet, 'kick').delays).toHaveLength(2);
    expect(drumOf(sheet, 'snare').delays.map(({ microphone }) => microphone)).not.toContain('kickOut');
    expect(drumOf(sheet, 'snare').contradiction).toEqual([]);
  });
});

describe('several on one drum', () => {
  test('three on the kick: which to invert for the fullest low octave, once all three pairs were read', () => {
    const kit = start('eleven');
    const extra = { ...(kit.pairs[0] as Pair), id: 'third', a: 'kickIn', b: 'kickDriver' };
    const three = { ...kit, pairs: [...kit.pairs, extra] };
    const of = (re: number, run = 'run 1'): Taken =>
      taken(null, null, null, {
        lowCoherency: re,
        octaveCoherency: [null, re, -re, null],
        fullerLowHz: 88.4,
        fullerHighHz: 176.8,
        run,
        sure: false,
      });
    const two = read(three, { 'kickIn-kickOut': of(0.8), third: of(-0.6) });
    expect(kitSystem(two).groups).toEqual([
      {
        drum: 'kick',
        microphones: ['kickIn', 'kickOut', 'kickDriver'],
        missing: [['kickOut', 'kickDriver']],
        lowHz: null,
        highHz: null,
        turn: null,
        gainDb: null,
        choiceDb: null,
        differentHits: false,
      },
    ]);
    const all = read(three, { 'kickIn-kickOut': of(0.8), 'kickOut-kickDriver': of(-0.5, 'run 2'), third: of(-0.6) });
    const [group] = kitSystem(all).groups;
    expect(group).toMatchObject({ missing: [], turn: ['kickDriver'], differentHits: true });
    // by hand: 3 + 2·(0.8 + 0.5 + 0.6) over 3 + 2·(0.8 − 0.5 − 0.6)
    expect(group?.gainDb).toBeCloseTo(10 * Math.log10(6.8 / 2.4), 9);
    // no pair recommends anything: the kit's choice is to leave them
    expect(group?.choiceDb).toBeCloseTo(0, 9);
    const after = kitSystem(inverted(all, 'kickDriver')).groups[0];
    expect(after?.turn).toEqual([]);
    expect(after?.gainDb).toBeCloseTo(0, 9);
  });

  test('a group is added up in one octave: the one that most pairs call the drum’s low one, of those that all of them carry', () => {
    const kit = start('eleven');
    const extra = { ...(kit.pairs[0] as Pair), id: 'third', a: 'kickIn', b: 'kickDriver' };
    const three = { ...kit, pairs: [...kit.pairs, extra] };
    const of = (own: number, octaveCoherency: (number | null)[]): Taken =>
      taken(null, null, null, {
        lowCoherency: octaveCoherency[own] as number,
        octaveCoherency,
        fullerLowHz: LOW_OCTAVES_HZ[own] as number,
        fullerHighHz: 2 * (LOW_OCTAVES_HZ[own] as number),
      });
    const band = (first: Taken) =>
      kitSystem(
        read(three, {
          'kickIn-kickOut': first,
          'kickOut-kickDriver': of(1, [-0.4, -0.5, null, null]),
          third: of(1, [-0.7, -0.6, null, null]),
        }),
      ).groups[0];
    expect(band(of(0, [0.9, 0.8, null, null]))).toMatchObject({ lowHz: LOW_OCTAVES_HZ[1], turn: ['kickDriver'] });
    expect(band(of(0, [0.9, 0.8, null, null]))?.gainDb).toBeCloseTo(10 * Math.log10(6.8 / 2.4), 9);
    // one pair has nothing there: no octave that anybody calls its own is common to all
    expect(band(of(0, [null, null, 0.9, null]))).toMatchObject({ missing: [], lowHz: null, turn: null, gainDb: null });
  });

  test('an empty sheet asks for a first pair of every drum', () => {
    const system = kitSystem(start('fourteen'));
    expect(system.drums.every(({ next }) => next?.why === 'joins')).toBe(true);
    expect(system.choice).toEqual({ invert: [], delays: [], pairs: [] });
  });
});

describe('as many as a sheet has', () => {
  /** One microphone on each drum against an overhead that hears them all. */
  const round = (drums: readonly string[]): KitSheet => {
    const pairs = drums.map(
      (drum, i): Pair => ({
        ...newPair(`p${i}`, `m${i}`, 'over', 'close-overhead', drum),
        before: taken('same', 3, 'as-is'),
        acceptedAt: 'x',
      }),
    );
    const microphones = ['over', ...drums.map((_, i) => `m${i}`)].map((id, i) => newMicrophone(id, id, '', '', `${i}`));
    return { ...start('two'), microphones, pairs, references: [], follows: [] };
  };

  test('on one drum: every delay is told', () => {
    const { drums } = kitSystem(round(new Array(MOST_MICROPHONES - 1).fill('snare')));
    expect(drums).toHaveLength(1);
    const delays = drums[0]?.delays ?? [];
    expect(delays).toHaveLength(MOST_MICROPHONES);
    for (const { microphone, delayMs } of delays) expect(delayMs).toBeCloseTo(microphone === 'over' ? 3 : 0, 9);
  });

  test('over the whole kit: each drum is told, and the switches', () => {
    const { drums, choice } = kitSystem(round(Array.from({ length: MOST_MICROPHONES - 1 }, (_, i) => `drum ${i}`)));
    expect(choice.invert).toEqual([]);
    expect(drums).toHaveLength(MOST_MICROPHONES - 1);
    expect(drums[0]?.delays.map(({ delayMs }) => delayMs)).toEqual([0, 3]);
  });
});
