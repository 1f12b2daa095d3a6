import { describe, expect, it } from 'vitest';
import { type PlainValue, PreviousValue } from '../../../src/state/meter/previous';

describe('the value before', () => {
  const value = (pathCm: number, polarity: PlainValue['polarity'] = 'same'): PlainValue => ({
    polarity,
    delayMs: pathCm / 34.3,
    pathCm,
  });

  it('is none at first, and small changes make none', () => {
    const before = new PreviousValue();
    for (const [i, cm] of [5, 5.2, 4.9].entries()) before.update(value(cm), i + 4);
    expect(before.previous).toBeNull();
  });

  it('is the last of the old ones once the new one stands for two hits', () => {
    const before = new PreviousValue();
    before.update(value(5), 4);
    before.update(value(5.2), 5);
    before.update(value(2), 6);
    expect(before.previous).toBeNull();
    before.update(value(2.1), 7);
    expect(before.previous?.pathCm).toBe(5.2);
  });

  it('is not made by one stray hit', () => {
    const before = new PreviousValue();
    before.update(value(5), 4);
    before.update(value(9), 5);
    before.update(value(5), 6);
    before.update(value(5), 7);
    expect(before.previous).toBeNull();
  });

  it('is what stood when a person changed something', () => {
    const before = new PreviousValue();
    before.update(value(5, 'inverted'), 4);
    before.turn();
    before.update(value(5, 'same'), 5);
    expect(before.previous).toMatchObject({ pathCm: 5, polarity: 'inverted' });
    before.clear();
    expect(before.previous).toBeNull();
  });
});
