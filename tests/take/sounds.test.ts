/** Sounds of a kit: what two or three drums make at once is no drum of its own, a drum that lies between two others is one. */
import { describe, expect, test } from 'vitest';
import { added, type Shape, soundsOf } from '../../src/take/hits/sounds';
import { BANDS } from '../../src/take/scan/levelScan';
import { seeded } from '../support/sound/signals';

const TRACKS = 5;
const random = seeded(3);
/** A drum as loud in each track and band as it happens to be. */
const drum = (): Shape => Float64Array.from({ length: TRACKS * BANDS }, () => -30 * random());
/** Struck so often, never quite alike. */
const struck = (shape: Shape, times: number): Shape[] =>
  Array.from({ length: times }, () => shape.map((level) => level + 0.8 * (random() - 0.5)));

const [KICK, SNARE, HAT] = [drum(), drum(), drum()];
const both = added(KICK, HAT, -4);
const three = added(added(SNARE, HAT, -3), KICK, -6);

const countOf = (shapes: Shape[]): number => soundsOf(shapes).length;

describe('sounds', () => {
  test('of three drums are three, however often two are struck at once', () => {
    const alone = [...struck(KICK, 4), ...struck(SNARE, 6), ...struck(HAT, 3)];
    expect(countOf(alone)).toBe(3);
    expect(countOf([...alone, ...struck(both, 9)])).toBe(3);
    expect(countOf([...alone, ...struck(both, 9), ...struck(three, 12)])).toBe(3);
  });

  test('of a drum that lies between two others, and is struck as often, are its own', () => {
    const [high, low] = [drum(), drum()];
    const middle = added(high, low, 0).map((level) => level + 7 * (random() - 0.5));
    expect(countOf([...struck(high, 8), ...struck(low, 8), ...struck(middle, 8)])).toBe(3);
  });
});
