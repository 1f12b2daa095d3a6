import { describe, expect, test } from 'vitest';
import type { Taken } from '../../../src/sheet/document/model';
import { outcomeOf } from '../../../src/sheet/pair/outcome';
import { farther, TAKEN } from '../../support/readings/taken';

describe('what was done, seen from the readings', () => {
  test('nothing: the newer reading is the only one', () => {
    const now = { ...TAKEN, hitsUsed: 12 };
    expect(outcomeOf(TAKEN, now)).toEqual({ before: now, after: null, done: null });
    expect(outcomeOf(null, now)).toEqual({ before: now, after: null, done: null });
  });

  test('B’s switch was pressed, A’s, and both', () => {
    const b: Taken = { ...TAKEN, polarity: 'same', bInverted: true };
    expect(outcomeOf(TAKEN, b)).toMatchObject({ before: TAKEN, after: b, done: { inverted: 'b', movedCm: null } });
    const a: Taken = { ...TAKEN, polarity: 'same', aInverted: true };
    expect(outcomeOf(TAKEN, a).done).toMatchObject({ inverted: 'a' });
    const both: Taken = { ...TAKEN, aInverted: true, bInverted: true };
    expect(outcomeOf(TAKEN, both).done).toMatchObject({ inverted: 'both', movedCm: null });
  });

  test('B came 2.5 cm closer; 3 mm are within what nobody can put back', () => {
    const closer = farther(TAKEN, -2.5);
    expect(outcomeOf(TAKEN, closer)).toMatchObject({ after: closer, done: { inverted: null, movedCm: 2.5 } });
    expect(outcomeOf(TAKEN, farther(TAKEN, 0.3)).after).toBeNull();
  });

  test('polarity flipped without a switch is noted as just that', () => {
    const { after, done } = outcomeOf(TAKEN, { ...TAKEN, polarity: 'same' });
    expect(after?.polarity).toBe('same');
    expect(done).toMatchObject({ inverted: null, note: 'polarity inverted, no switch press noted' });
  });

  test('a delay for the mix, and what was left on purpose, need no change', () => {
    expect(outcomeOf(TAKEN, TAKEN, { later: { invertB: true, delayMs: 1.2 } })).toMatchObject({
      after: null,
      done: { later: { invertB: true, delayMs: 1.2 }, inverted: null, leftOnPurpose: false },
    });
    expect(outcomeOf(TAKEN, TAKEN, { left: 'wanted thin' }).done).toEqual({
      inverted: null,
      movedCm: null,
      later: null,
      leftOnPurpose: true,
      note: 'wanted thin',
    });
  });

  test('an unsure first reading says nothing of a move', () => {
    const unsure: Taken = { ...TAKEN, sure: false, polarity: null, delayMs: null };
    expect(outcomeOf(unsure, TAKEN)).toEqual({ before: TAKEN, after: null, done: null });
    const switched = { ...TAKEN, bInverted: true };
    expect(outcomeOf(unsure, switched)).toMatchObject({ before: unsure, after: switched, done: { inverted: 'b' } });
  });
});
