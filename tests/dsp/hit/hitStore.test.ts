/** The newest hits, each in a place of its own. */
import { describe, expect, it } from 'vitest';
import { addHit, hitStore, LIMITS, times } from '../../support/rules/rules';

describe('the store of hits', () => {
  it.each([
    { hits: 0, first: 1 },
    { hits: 1, first: 1 },
    { hits: LIMITS.storedHits, first: 1 },
    { hits: LIMITS.storedHits + 1, first: 2 },
    { hits: 3 * LIMITS.storedHits, first: 2 * LIMITS.storedHits + 1 },
  ])('of $hits remembers those from $first on, each in a place of its own', ({ hits, first }) => {
    const store = hitStore(times(hits));
    expect(store.first).toBe(first);
    const slots = new Set<number>();
    for (let serial = store.first; serial <= store.count; serial++) slots.add(store.slot(serial));
    expect(slots.size).toBe(Math.min(hits, LIMITS.storedHits));
    expect(Math.max(-1, ...slots)).toBeLessThan(LIMITS.storedHits);
  });

  it('gives a place to a new hit with nothing of the one before', () => {
    const store = hitStore();
    const empty = store.add(1000);
    const kept = new Set(['energyA', 'energyB', 'product', 'trigger', 'anchor']);
    const fields = Object.entries(store).filter(
      ([name, values]) =>
        ArrayBuffer.isView(values) && (values as Uint8Array).length === LIMITS.storedHits && !kept.has(name),
    ) as [string, Float64Array][];
    expect(fields.length).toBeGreaterThan(25);
    const fresh = fields.map(([name, values]) => [name, values[empty]]);
    for (const hit of times(LIMITS.storedHits - 1)) addHit(store, hit);
    for (const [, values] of fields) values[empty] = 7;
    expect(store.add(99000)).toBe(empty);
    expect(fields.map(([name, values]) => [name, values[empty]])).toEqual(fresh);
    expect([store.trigger[empty], store.anchor[empty]]).toEqual([99000, 99000]);
  });

  it('is empty after the start anew', () => {
    const store = hitStore(times(100));
    store.clear();
    expect([store.count, store.first]).toEqual([0, 1]);
  });
});
