import { describe, expect, it } from 'vitest';
import { advise } from '../../../src/advice/advise';
import type { PairKindId } from '../../../src/advice/plan/pairKinds';
import { answerOf, type Reading } from '../../../src/reading/reading';
import { figuresOf, hitsUsed, isRough } from '../../../src/ui/shared/figures';
import { CM_PER_SAMPLE, measured, RATE, reading } from '../../advice/readings';

const CELSIUS = 20;
const known = (pathCm: number, accuracyCm: number): Reading =>
  measured('same', pathCm, { uncertaintySamples: accuracyCm / CM_PER_SAMPLE });

function shown(read: Reading, kind: PairKindId) {
  const advice = advise(read, { kind, temperatureC: CELSIUS, invertB: false });
  return { advice, figures: figuresOf(answerOf(read), RATE, CELSIUS, advice) };
}

describe('figures beside the advice', () => {
  it.each([
    [2.3, 0.4],
    [2.3, 1.2],
    [5.2, 2.4],
    [-14.6, 3],
  ])('a path of %s cm known to ±%s cm is the move that takes it away', (pathCm, accuracyCm) => {
    const { advice, figures } = shown(known(pathCm, accuracyCm), 'same-side');
    expect(advice.moveCm).not.toBeNull();
    expect(advice.text).toContain(`${Math.abs(advice.moveCm as number)} cm`);
    expect(figures.size).toBe(`B ${Math.abs(advice.moveCm as number)} cm`);
    expect(figures.path).toBe(`${pathCm > 0 ? 'B' : 'A'} ${Math.abs(advice.moveCm as number)} cm further`);
  });

  it('a delay is told with the path that the advice tells', () => {
    const { advice, figures } = shown(known(101.3, 4), 'close-overhead');
    expect(advice.delayLaterMs).not.toBeNull();
    expect(advice.text).toContain(`${advice.delayLaterMs} ms`);
    expect(figures.path).toBe('B 101 cm further');
    // rounded as the delay that is advised
    expect(Math.abs(Number.parseFloat(figures.delay))).toBeCloseTo(Math.abs(advice.delayLaterMs as number), 5);
  });

  it.each([
    [-6.7, 5],
    [-6.7, 16],
    [2.3, 1.2],
    [6.7, 0.4],
  ])('path and delay of one moment agree: %s cm known to ±%s cm', (pathCm, accuracyCm) => {
    for (const kind of ['same-side', 'top-bottom', 'other'] as const) {
      const { figures } = shown(known(pathCm, accuracyCm), kind);
      const size = Number(/[\d.]+/.exec(figures.size)?.[0]);
      // half of 0.01 ms and half of 0.5 cm, at 34.321 cm/ms
      const off = Math.abs(Math.abs(Number.parseFloat(figures.delay.replace('−', '-'))) * 34.321 - size);
      expect(off, `${figures.size} ${figures.delay}`).toBeLessThanOrEqual(0.5 + 0.18);
    }
  });

  it('accuracy and repeats are those of the sentence', () => {
    const { advice, figures } = shown(known(3, 16.6), 'same-side');
    expect(advice.sureness).toContain(`hit-to-hit spread ${figures.repeats}; accurate to ${figures.accuracy} (90 %)`);
    expect(figures.accuracy).toBe('±17 cm');
  });

  it('has none without an answer, and no accuracy while a mic is being moved', () => {
    expect(figuresOf(null, RATE, CELSIUS, null)).toEqual(figuresOf(answerOf(reading()), RATE, CELSIUS, null));
    const moving = reading({ state: 'following', reason: 'moving', delaySamples: 3 / CM_PER_SAMPLE });
    expect(figuresOf(answerOf(moving), RATE, CELSIUS, null)).toMatchObject({
      path: 'B 3 cm further',
      accuracy: '–',
      repeats: '–',
    });
  });
});

describe('a tick', () => {
  const rough = (read: Reading, kind: PairKindId) => isRough(answerOf(read), RATE, CELSIUS, kind);
  it('is for what is known within the pair kind’s tolerance only', () => {
    expect(rough(known(3, 16), 'same-side')).toBe(true);
    expect(rough(known(3, 16), 'close-room')).toBe(false);
    expect(rough(known(3, 0.4), 'same-side')).toBe(false);
    expect(rough(measured('same', 3, { uncertaintySamples: null }), 'close-room')).toBe(true);
    // another state has a mark of its own
    expect(rough(reading({ state: 'unclear', reason: 'hits-disagree' }), 'same-side')).toBe(false);
  });
});

describe('hits used', () => {
  it('counts before an answer what the sentence counts', () => {
    const one = reading({ hits: 1, hitsPooled: 1, reason: 'too-few-hits' });
    expect(advise(one, { kind: 'other', temperatureC: CELSIUS, invertB: false }).text).toContain('it 1 of 4');
    expect(hitsUsed(one)).toEqual({ label: 'Usable so far:', text: '1 of 1 hit' });
    expect(hitsUsed(measured('same', 3))).toEqual({ label: 'Used:', text: '6 of 6 hits' });
    expect(hitsUsed(null)).toEqual({ label: 'Used:', text: '0 hits' });
  });

  it('counts what was heard where several drums are, for each has its own', () => {
    const open = reading({ state: 'unclear', reason: 'which-drum', hits: 30, hitsPooled: 0 });
    expect(hitsUsed(open)).toEqual({ label: 'Heard:', text: '30 hits' });
  });
});
