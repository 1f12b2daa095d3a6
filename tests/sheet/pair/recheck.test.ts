import { expect, test } from 'vitest';
import type { Taken } from '../../../src/sheet/document/model';
import { recheck, recheckText } from '../../../src/sheet/pair/recheck';
import { farther, TAKEN } from '../../support/readings/taken';

test('what another temperature explains is no move: the air’s, or a figure that was put right', () => {
  const far = { ...TAKEN, delayMs: 3 };
  // the same delay, the air put right from 20 to 32 °C: 2.1 cm by the figures
  expect(recheck(far, { ...far, temperatureC: 32 }).change).toBe('same');
  // the same place in warmer air: by hand 3 · √(293.15/305.15)
  const warm = { ...far, delayMs: 3 * Math.sqrt(293.15 / 305.15), temperatureC: 32 };
  expect(recheck(far, warm)).toMatchObject({ change: 'same' });
  expect(recheck(far, { ...farther(far, 6), temperatureC: 32 }).change).toBe('moved');
});

test('a reading from a part of the hits tells a change no finer than it is accurate', () => {
  // 0.1 ms: 3.4 cm; by its scatter alone a change of 5 mm would show
  const groove = { ...TAKEN, agreement: 0.6, uncertaintyMs: 0.1 };
  for (const cm of [3, -3]) {
    expect(recheck(TAKEN, farther(TAKEN, cm)).change).toBe('moved');
    expect(recheck(TAKEN, farther(groove, cm))).toMatchObject({ change: 'same', seenFromCm: expect.closeTo(3.43, 2) });
    expect(recheck(groove, farther(TAKEN, cm)).change).toBe('same');
  }
  expect(recheck(TAKEN, farther(groove, 4)).change).toBe('moved');
  expect(recheck(TAKEN, { ...groove, polarity: 'same' }).change).toBe('polarity');
  expect(recheck(TAKEN, farther({ ...groove, agreement: 0.75 }, 3)).change).toBe('moved');
});

test('a recheck in words', () => {
  const say = (now: Taken): string => recheckText(recheck(TAKEN, now), 'Snare bottom', '14:10');
  expect(say(farther(TAKEN, 2.4))).toBe(
    'Snare bottom: 2.4 cm further than at 14:10. Stop the drummer, then check both stands.',
  );
  expect(say(farther(TAKEN, -12))).toBe(
    'Snare bottom: 12 cm closer than at 14:10. Stop the drummer, then check both stands.',
  );
  expect(say({ ...TAKEN, polarity: 'same' })).toBe(
    'Snare bottom: polarity inverted since 14:10. Stop the drummer, monitors down, then check the polarity switch and the cable.',
  );
  expect(say(TAKEN)).toMatch(/^Snare bottom: same as at 14:10 \(a change of .* would show\)\.$/);
  expect(say({ ...TAKEN, sure: false })).toContain('can’t be compared with 14:10');
});
