/** Which hits of a drum are in the running: the newest, those after a move, without what a cymbal began. DEVELOPERS, 5 and 6. */
import { describe, expect, it } from 'vitest';
import { named } from '../../support/rules/named';
import { addHit, arrivals, LIMITS, type MadeHit, NO_PUSH, poolOf, times } from '../../support/rules/rules';

const pick = (delayUs: number): MadeHit => ({ delayUs });
const low = (lowUs: number): MadeHit => ({ ...NO_PUSH, lowUs });
const wave = (waveUs: number): MadeHit => ({ ...NO_PUSH, waveUs });

describe('the hits in the running', () => {
  it('are the newest sixteen of the drum, oldest first', () => {
    const { store, pool } = poolOf(times(20));
    expect(pool.drumHits).toBe(LIMITS.poolHits);
    expect([...pool.drumSlots].map((s) => pool.serialOf(store, s))).toEqual(
      Array.from({ length: 16 }, (_, i) => 5 + i),
    );
  });

  it('keep their serials when the store has gone round', () => {
    const { store, pool } = poolOf(times(LIMITS.storedHits + 6));
    expect(pool.serialOf(store, pool.drumSlots[15])).toBe(LIMITS.storedHits + 6);
    expect(pool.serialOf(store, pool.drumSlots[0])).toBe(LIMITS.storedHits - 9);
  });

  it('are of this drum, and have an arrival worked out', () => {
    const { pool, next } = poolOf([{ drum: 1 }, {}, { drum: -1 }, {}, { drum: 1 }]);
    next({ hasArrival: false });
    expect([...pool.drumSlots.subarray(0, pool.drumHits)]).toEqual([1, 3]);
  });

  it('are those after a move that another drum has shown', () => {
    const { store, pool, next } = poolOf(times(6));
    expect(pool.forgetUpTo(store, 0, 4)).toBe(true);
    expect(next({}).drumHits).toBe(3);
    // nothing of it was left up to there, respectively nothing came since
    expect(pool.forgetUpTo(store, 0, 4)).toBe(false);
    expect(pool.forgetUpTo(store, 0, 2)).toBe(false);
    pool.evaluate(store, 0, false);
    expect(pool.drumHits).toBe(3);
    addHit(store, { drum: 1 });
    expect(pool.forgetUpTo(store, 0, 7)).toBe(true);
    expect(pool.forgetUpTo(store, 0, 8)).toBe(false);
  });
});

describe('a drum whose low end leads, and hits that a cymbal began', () => {
  const cymbal = (delayUs: number, more: MadeHit = {}): MadeHit => ({ delayUs, highLed: true, ...more });
  it.each(
    named([
      { name: 'elsewhere: left out, of two drums', hit: cymbal(1200), others: 4, out: true },
      { name: 'beginning as the others do: a sharp stroke', hit: cymbal(1079), others: 4, out: false },
      { name: '0.081 ms off: left out', hit: cymbal(1081), others: 4, out: true },
      {
        name: 'in the same place, with the other sign: left out',
        hit: cymbal(1000, { sign: -1 }),
        others: 4,
        out: true,
      },
      {
        name: 'in the same place, hardly to be seen: left out',
        hit: cymbal(1000, { quality: 7 }),
        others: 4,
        out: true,
      },
      { name: 'beginning as three others do, too few to tell: left out', hit: cymbal(1000), others: 3, out: true },
    ]),
  )('%s', (_, { hit, others, out }) => {
    const { store, pool } = poolOf([...times(others), hit], true);
    expect(pool.drumHits).toBe(out ? others : others + 1);
    expect(store.mixed[others]).toBe(out ? 1 : 0);
  });

  it('count where the low end doesn’t lead', () => {
    const { store, pool } = poolOf([...times(4), cymbal(1200)]);
    expect(pool.drumHits).toBe(5);
    expect(store.mixed[4]).toBe(0);
  });
});

describe('a move', () => {
  it('takes the hits before it out of the running, and a false alarm brings them back', () => {
    const { pool, next } = poolOf([...arrivals(...Array(8).fill(1000)), { delayUs: 1100 }]);
    expect(pool.drumHits).toBe(9);
    next({ delayUs: 1100 });
    expect([pool.drumHits, pool.oldUpTo, pool.settling]).toEqual([2, 8, true]);
    next({ delayUs: 1000 });
    expect([pool.drumHits, pool.oldUpTo, pool.steady]).toEqual([11, 0, true]);
  });

  it('is not seen, or ended, by a hit that says nothing of it', () => {
    // scattered by 20 µs, then four 70 µs later: a move from the fourth on
    const { pool, next } = poolOf(arrivals(980, 1020, 980, 1020, 1070, 1070, 1070, 1070));
    expect([pool.drumHits, pool.settling]).toEqual([4, true]);
    next(NO_PUSH);
    expect([pool.drumHits, pool.settling]).toEqual([5, true]);
    next({ delayUs: 1070 });
    expect([pool.drumHits, pool.steady]).toEqual([5, true]);
    expect(poolOf([NO_PUSH, NO_PUSH, ...times(6)]).pool.drumHits).toBe(8);
  });

  it.each(
    named([
      // half of the hits and more can be read by their first arrivals
      { name: 'the waveform of all', by: (i: number, us: number) => (i < 4 ? wave(us) : { waveUs: us }), seen: false },
      { name: 'the waveform of some', by: (i: number, us: number) => (i % 4 === 1 ? NO_PUSH : wave(us)), seen: true },
    ]),
  )('is seen, or not, by %s', (_, { by, seen }) => {
    const { pool } = poolOf(Array.from({ length: 12 }, (_, i) => by(i, i < 10 ? 1000 : 1100)));
    expect(pool.settling).toBe(seen);
  });

  it.each(
    named([
      { name: 'first arrivals', of: pick, seen: true },
      { name: 'the low end, where no first arrival can be read', of: low, seen: true },
      { name: 'the waveform, where no first arrival can be read', of: wave, seen: true },
      { name: 'the waveform, where first arrivals say otherwise', of: (us: number) => ({ waveUs: us }), seen: false },
      { name: 'the low end, where first arrivals say otherwise', of: (us: number) => ({ lowUs: us }), seen: false },
      {
        name: 'the waveform, though the low end says otherwise',
        of: (us: number) => ({ ...wave(us), lowUs: 1000 }),
        seen: true,
      },
    ]),
  )('is seen by %s', (_, { of, seen }) => {
    const { pool } = poolOf([...times(8, of(1000)), ...times(2, of(1100))]);
    expect(pool.settling).toBe(seen);
    expect(pool.drumHits).toBe(seen ? 2 : 10);
  });

  it('is seen anew by a pool that begins anew', () => {
    const { store, pool } = poolOf([...arrivals(...Array(8).fill(1000), 1100, 1100)]);
    pool.clear();
    expect([pool.drumHits, pool.oldUpTo, pool.steady]).toEqual([0, 0, true]);
    // it sees all of them, and the move, anew
    pool.evaluate(store, 0, false);
    expect([pool.drumHits, pool.settling]).toEqual([2, true]);
  });
});
