/** A pair's reading drawn at random, with sums that belong together: a tone that dies away on either side of the arrival. */
import type { Random } from '../../../samples/model/random';
import { curved } from './taken';

/** @param invertedShare of the readings, how many are inverted */
export function drawnRead(arrivalMs: number, random: Random, invertedShare: number) {
  const size = (random.uniform() < invertedShare ? -1 : 1) * (0.3 + 0.6 * random.uniform());
  const hz = 100 + 400 * random.uniform();
  const gamma =
    (widthMs: number, factor: number) =>
    (ms: number): number =>
      size *
      Math.cos((2 * Math.PI * factor * hz * (ms - arrivalMs)) / 1000) *
      Math.exp(-(((ms - arrivalMs) / widthMs) ** 2));
  const read = curved(arrivalMs, gamma(6, 1), gamma(1.5, 2.3), Math.abs(arrivalMs) < 0.06 ? [] : [arrivalMs]);
  return { inverted: size < 0, read };
}
