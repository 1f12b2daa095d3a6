/** What is said while other drums are played than the one that is read, and while it is open which one is meant. */
import { describe, expect, it } from 'vitest';
import type { Advice, AdviceContext } from '../../../src/advice/advice';
import { advise } from '../../../src/advice/advise';
import { noteText } from '../../../src/advice/words/noteWords';
import { whySentences } from '../../../src/advice/words/whyWords';
import type { Flat } from '../../support/readings/flat';
import { hit } from '../hits';
import { drum, measured, reading } from '../readings';

const context = (more: Partial<AdviceContext> = {}): AdviceContext => ({
  kind: 'other',
  temperatureC: 20,
  invertB: false,
  ...more,
});
const named = new Map([
  [1, 'snare'],
  [2, 'floor tom'],
  [3, 'rack tom'],
  [5, 'tom 1'],
]);

describe('other drums are played', () => {
  it.each<[number[], ReadonlyMap<number, string> | undefined, string]>([
    [[2], named, 'The floor tom is played: not counted.'],
    [[2, 3], named, 'The floor tom and the rack tom are played: not counted.'],
    [[5], named, 'Tom 1 is played: not counted.'],
    [[2, 3, 5], named, 'Other drums are played: not counted.'],
    [[2, 4], named, 'Other drums are played: not counted.'],
    [[4], named, 'Another drum is played: not counted.'],
    [[4], undefined, 'Another drum is played: not counted.'],
    [[2, 3], undefined, 'Other drums are played: not counted.'],
  ])('%j: %s', (drums, drumNames, text) => {
    expect(noteText({ code: 'others-played', drums }, context({ drumNames }))).toBe(text);
  });

  /** Drum 1 is read; these were hit, one after the other. */
  const played = (of: number[], fields: Partial<Flat> = {}): Partial<Flat> => ({
    drum: 1,
    drums: [drum(1), drum(2)],
    perHit: of.map((id, i) => hit(i + 1, 'used', { drum: id })),
    ...fields,
  });
  const NOTE = 'The floor tom is played: not counted.';
  const told = ({ notes }: Advice): boolean => notes.includes(NOTE);
  const drumNames = named;

  it('is told beside the answer, which stays, from the second hit to the next one of its own', () => {
    const said = (of: number[]): Advice => advise(measured('inverted', 12, played(of)), context({ drumNames }));
    expect(
      [
        [1, 2],
        [1, 2, 2],
        [2, 2, 2, 2],
        [1, 2, 2, 1],
      ].map((of) => told(said(of))),
    ).toEqual([false, true, true, false]);
    const [alone, others] = [said([1, 1]), said([1, 2, 2])];
    expect({ ...others, notes: others.notes.filter((note) => note !== NOTE) }).toEqual(alone);
    // the last of them: what is to be done comes first
    expect(others.notes.at(-1)).toBe(NOTE);
  });

  it('is told while the drum has too few hits, and where it has no answer', () => {
    for (const fields of [
      { state: 'listening', reason: 'too-few-hits', hitsPooled: 2 },
      { state: 'unclear', reason: 'hits-disagree' },
    ] as const)
      expect(told(advise(reading(played([1, 2, 2], fields)), context({ drumNames })))).toBe(true);
  });

  it('isn’t told of a recording that is over, while a mic is being moved, nor while an input is to be put right', () => {
    expect(told(advise(measured('same', 3, played([1, 2, 2])), context({ drumNames, ended: true })))).toBe(false);
    for (const fields of [
      { state: 'following', reason: 'moving' },
      { state: 'no-signal', reason: 'a-silent' },
      { state: 'overloaded', reason: 'clipped-a' },
    ] as const)
      expect(told(advise(reading(played([1, 2, 2], fields)), context({ drumNames })))).toBe(false);
  });
});

describe('which drum', () => {
  const open = reading({ state: 'unclear', reason: 'which-drum', hits: 12, drums: [drum(1), drum(2)] });
  const BECAUSE = 'Several drums are heard, and neither mic is clearly at one of them';

  it('is what the large line asks, with what to do', () => {
    const said = advise(open, context());
    expect(said.text).toBe('Which drum? Choose one, or have just one drum hit.');
    expect([said.callOut, said.sureness]).toEqual(['Which drum? Choose it at the meter', 'no timing: which drum?']);
    expect(said.notes).toEqual([`${BECAUSE}.`]);
    expect([said.action, said.plan, said.moveCm, said.delayLaterMs]).toEqual(['cannot-tell', [], null, null]);
    // set large as it is
    expect(said.text.length).toBeLessThanOrEqual(60);
  });

  it('of a recording that is over nobody is asked to hit anything', () => {
    const said = advise(open, context({ ended: true }));
    expect(said.text).toBe('Which drum? Each one heard has its own answer: choose one.');
    expect(said.text.length).toBeLessThanOrEqual(60);
  });

  it('is all that the why page has to say, beside the hits left out', () => {
    expect(whySentences(open, context())).toEqual([`${BECAUSE}: choose one, or have just one drum hit.`]);
  });
});
