import { describe, expect, test } from 'vitest';
import { newMicrophone, newPair, type Pair, type Taken } from '../../../src/sheet/document/model';
import { handOver } from '../../../src/sheet/print/handOver';
import { DONE, start, withPairs } from '../../support/readings/sheets';
import { planned, TAKEN, timing } from '../../support/readings/taken';

const same = (delayMs: number, more: Partial<Taken> = {}): Taken => ({
  ...TAKEN,
  polarity: 'same',
  fuller: 'as-is',
  delayMs,
  ...planned(timing(0.7, 0.5)),
  ...more,
});

describe('doubts', () => {
  const four = start('four');
  const triangle = (uncertaintyMs: number | null): string[] =>
    handOver(
      withPairs(four, {
        'overheadLeft-overheadRight': { before: same(0.1, { uncertaintyMs }) },
        'snareTop-overheadLeft': { before: same(3) },
        'snareTop-overheadRight': { before: same(3.6) },
      }),
    ).doubts;

  test('delays that don’t close, with what is left', () => {
    // by hand: 3 + 0.1 − 3.6
    expect(triangle(0.02)[0]).toBe(
      'Snare: the delays of Overhead left → Overhead right, Snare top → Overhead left and Snare top → Overhead right don’t add up, even allowing for their ±: off by 0.50 ms.',
    );
    expect(triangle(null)[0]).toMatch(/don’t add up: off by 0\.50 ms, and the accuracy of one is unknown\.$/);
  });

  test('of many that don’t close the worst four, and how many more', () => {
    const ids = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];
    const microphones = ids.map((id) => newMicrophone(id, id.toUpperCase(), 'snare', 'top', id));
    const all = ids.flatMap((a, i) => ids.slice(i + 1).map((b) => newPair(`${a}${b}`, a, b, 'other', 'snare')));
    // one delay is wrong: it is a side of five triangles
    const pairs = all.map((pair): Pair => ({ ...pair, before: same(pair.id === 'ab' ? 1 : 0), acceptedAt: 'x' }));
    const told = handOver({ ...four, microphones, pairs, references: [], follows: [] });
    expect(told.doubts.filter((text) => text.includes('off by 1.00 ms'))).toHaveLength(4);
    expect(told.doubts[4]).toBe('Snare: the delays of 1 more set of three don’t add up.');
    expect(told.doubts[5]).toBe('Snare: most likely wrong, in this order: A → B, A → C and A → D; 8 more.');
  });

  test('a change that no reading followed, and a second look that found one', () => {
    const sheet = withPairs(four, {
      'snareTop-overheadLeft': { before: same(3), done: { ...DONE, movedCm: 4 } },
      'overheadLeft-overheadRight': {
        before: same(0.1),
        checked: { checkedAt: '2026-01-02T04:00:00Z', change: 'polarity', fartherCm: 0 },
      },
      'snareTop-overheadRight': {
        before: same(3.1),
        checked: { checkedAt: '2026-01-02T04:00:00Z', change: 'moved', fartherCm: 3.04 },
      },
    });
    expect(handOver(sheet).doubts).toEqual([
      'Overhead left → Overhead right: at the recheck, polarity inverted since accepted.',
      'Snare top → Overhead left: not measured again since this was done: Overhead left moved 4 cm closer.',
      'Snare top → Overhead right: at the recheck, B 3 cm further than when accepted.',
    ]);
  });

  test('twenty-two on one drum are worked out together as well', () => {
    const many = Array.from({ length: 22 }, (_, i) => newMicrophone(`m${i}`, `M ${i}`, 'snare', 'top', `${i}`));
    const pairs = many.slice(1).map(
      ({ id }, i): Pair => ({
        ...newPair(`p${i}`, 'm0', id, 'other', 'snare'),
        before: same(0.1),
        acceptedAt: 'x',
      }),
    );
    const told = handOver({ ...four, microphones: many, pairs, references: [], follows: [] });
    expect(told.pairs).toHaveLength(21);
    expect(told.microphones[1]?.delays).toHaveLength(1);
  });
});
