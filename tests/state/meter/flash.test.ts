import { describe, expect, it } from 'vitest';
import { FlashLimiter } from '../../../src/state/meter/flash';

describe('flashes', () => {
  // WCAG 2.2, success criterion 2.3.1: no more than three flashes in any one-second period
  it('never come more than three times in any second, however fast the hits', () => {
    const limiter = new FlashLimiter();
    const flashes: number[] = [];
    for (let ms = 0; ms < 10_000; ms += 62.5) if (limiter.allow(ms)) flashes.push(ms);
    expect(flashes.length).toBeGreaterThan(10);
    for (const from of flashes) expect(flashes.filter((ms) => ms >= from && ms < from + 1000).length).toBeLessThan(4);
  });
});
