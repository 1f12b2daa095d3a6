import { createSignal } from 'solid-js';
import { expect, test } from 'vitest';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { systemOnce } from '../../../src/state/round/roundOrder';

const eight = (): KitSheet => {
  const start = STARTS.find(({ id }) => id === 'eight');
  if (!start) throw new Error('no kit of eight');
  return sheetFrom(start, 'one', 'Quay');
};

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

test('what goes wrong isn’t hidden', () => {
  const [sheet] = createSignal<KitSheet | null>({ ...eight(), pairs: null as unknown as Pair[] });
  const system = systemOnce(sheet);
  expect(system).toThrow(TypeError);
  // nor is it taken for the one before when it is asked again
  expect(system).toThrow(TypeError);
});
