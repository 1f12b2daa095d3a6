/** The hits that are kept, each in a place of its own: the newest, and of drums that are hit seldom the ones they have. */
import { describe, expect, it } from 'vitest';
import type { HitStore } from '../../../src/dsp/hit/hitStore';
import { named } from '../../support/rules/named';
import { addHit, hitStore, LIMITS, type MadeHit, times } from '../../support/rules/rules';

const range = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, i) => from + i);
const slots = (store: HitStore): number[] => range(0, store.kept - 1).map((i) => store.at(i));
const serials = (store: HitStore): number[] => slots(store).map((s) => store.serial[s]);
const of = (drum: number, n: number): MadeHit[] => times(n, { drum });

/** Every kept hit has a place of its own, is found there by its serial, and they stand in their order; others aren't found. */
function expectWhole(store: HitStore): void {
  expect(new Set(slots(store)).size).toBe(Math.min(store.count, LIMITS.storedHits));
  expect(Math.min(0, ...slots(store))).toBe(0);
  expect(Math.max(-1, ...slots(store))).toBeLessThan(LIMITS.storedHits);
  const kept = serials(store);
  expect(kept).toEqual([...kept].sort((one, other) => one - other));
  for (const serial of range(1, store.count + 1)) {
    const s = store.slot(serial);
    expect(s >= 0).toBe(kept.includes(serial));
    if (s >= 0) expect([store.serial[s], store.trigger[s]]).toEqual([serial, serial * 24000]);
  }
  if (store.count > 0) expect(store.serial[store.newest]).toBe(store.count);
}

describe('the store of hits', () => {
  it.each([
    { hits: 0, first: 1 },
    { hits: 1, first: 1 },
    { hits: LIMITS.storedHits, first: 1 },
    { hits: LIMITS.storedHits + 1, first: 2 },
    { hits: 3 * LIMITS.storedHits, first: 2 * LIMITS.storedHits + 1 },
  ])('of $hits of one drum remembers those from $first on, each in a place of its own', ({ hits, first }) => {
    const store = hitStore(times(hits));
    expect(serials(store)).toEqual(range(first, hits));
    expectWhole(store);
  });

  it.each(
    named([
      {
        name: 'twelve of one drum, though 300 of another come after them',
        hits: [...of(1, 12), ...of(0, 300)],
        kept: [...range(1, 12), ...range(261, 312)],
      },
      {
        name: 'twelve of one drum, though 300 of no drum come after them',
        hits: [...of(1, 12), ...of(-1, 300)],
        kept: [...range(1, 12), ...range(261, 312)],
      },
      {
        name: 'those of each of eight drums alike, however long ago one was played: its newest',
        hits: range(0, 7).flatMap((drum) => of(drum, 40)),
        // where all have eight the last one takes one of the first's
        kept: range(0, 7).flatMap((drum) => range(40 * drum + [34, 33, 33, 33, 33, 33, 33, 32][drum], 40 * drum + 40)),
      },
      {
        name: 'the oldest of the drum that has most goes, where both are played by turns',
        hits: [...of(0, 40), ...of(1, 24), { drum: 1 }, { drum: 0 }, { drum: 1 }],
        kept: range(4, 67),
      },
      {
        name: 'of two that have as many the lower number’s goes first',
        hits: [...of(1, 32), ...of(0, 32), { drum: 1 }],
        kept: [...range(1, 32), ...range(34, 65)],
      },
      {
        // they are still being worked out: the oldest of all goes
        name: 'the newest eight, though no drum has more',
        hits: [...range(0, 7).flatMap((drum) => of(drum, 7)), ...of(8, 8), { drum: 0 }],
        kept: range(2, 65),
      },
    ]),
  )('keeps %s', (_, { hits, kept }) => {
    const store = hitStore(hits);
    expect(serials(store)).toEqual(kept);
    expectWhole(store);
  });

  it('gives a place to a new hit with nothing of the one before', () => {
    const store = hitStore();
    const empty = store.add(1000);
    const kept = new Set(['energyA', 'energyB', 'product', 'trigger', 'anchor', 'serial', 'order']);
    const fields = Object.entries(store).filter(
      ([name, values]) =>
        ArrayBuffer.isView(values) && (values as Uint8Array).length === LIMITS.storedHits && !kept.has(name),
    ) as [string, Float64Array][];
    expect(fields.length).toBeGreaterThan(25);
    const fresh = fields.map(([name, values]) => [name, values[empty]]);
    // the drum's, so that it is its oldest that goes
    for (const hit of of(7, LIMITS.storedHits - 1)) addHit(store, hit);
    for (const [, values] of fields) values[empty] = 7;
    expect(store.add(99000)).toBe(empty);
    expect(fields.map(([name, values]) => [name, values[empty]])).toEqual(fresh);
    expect([store.trigger[empty], store.anchor[empty], store.serial[empty]]).toEqual([99000, 99000, 65]);
  });

  it('is empty after the start anew', () => {
    const store = hitStore([...of(1, 12), ...of(0, 88)]);
    store.clear();
    expect([store.count, store.kept, store.slot(1), store.slot(100)]).toEqual([0, 0, -1, -1]);
    for (const hit of times(3)) addHit(store, hit);
    expect(serials(store)).toEqual([1, 2, 3]);
    expectWhole(store);
  });
});
