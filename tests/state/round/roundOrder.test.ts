import { createSignal } from 'solid-js';
import { expect, test } from 'vitest';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { MOST_TOGETHER } from '../../../src/sheet/network/tooManyTogether';
import { systemOnce } from '../../../src/state/round/roundOrder';
import { TAKEN } from '../../support/readings/taken';

const eight = (): KitSheet => {
  const start = STARTS.find(({ id }) => id === 'eight');
  if (!start) throw new Error('no kit of eight');
  return sheetFrom(start, 'one', 'Quay');
};

/** More on one drum than can be compared, every one joined to the first. */
function tooMany(): KitSheet {
  const kit = eight();
  const [first] = kit.microphones;
  const [pattern] = kit.pairs;
  if (!first || !pattern) throw new Error('an empty kit');
  const others = Array.from({ length: MOST_TOGETHER }, (_, i) => ({ ...first, id: `m${i}`, drum: 'snare' }));
  const pairs: Pair[] = others.map(({ id }) => ({
    ...pattern,
    id: `p-${id}`,
    a: first.id,
    b: id,
    drum: 'snare',
    before: TAKEN,
    acceptedAt: TAKEN.takenAt,
  }));
  return { ...kit, microphones: [{ ...first, drum: 'snare' }, ...others], pairs };
}

test('what the kit says together is worked out once for each state of the sheet', () => {
  const [sheet, setSheet] = createSignal<KitSheet | null>(null);
  const system = systemOnce(sheet);
  expect(system()).toBeNull();
  const kit = eight();
  setSheet(kit);
  const found = system();
  expect(found?.drums.length).toBeGreaterThan(1);
  expect(system()).toBe(found);
  setSheet({ ...kit });
  expect(system()).not.toBe(found);
  expect(system()).toEqual(found);
});

test('with more on one drum than can be compared it says nothing as a whole; anything else that goes wrong isn’t hidden', () => {
  const [sheet, setSheet] = createSignal<KitSheet | null>(tooMany());
  const system = systemOnce(sheet);
  expect(system()).toBeNull();
  setSheet({ ...eight(), pairs: null as unknown as Pair[] });
  expect(system).toThrow(TypeError);
  // nor is it taken for the one before when it is asked again
  expect(system).toThrow(TypeError);
});
