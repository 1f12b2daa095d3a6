/** Which alternatives are told, and in which order: the same on the page and by the measuring command. */
import { type Alternative, gainDb } from './alternatives';

/** so many beside the recommended one; the plain ones are always among them */
const OTHERS = 3;

const isPlain = ({ delayMs, moveCm }: Alternative): boolean => delayMs === null && moveCm === null;

/** The recommended one, then the plain ones and those that gain most, by what they gain. */
export function alternativesShown<T extends Alternative>(plan: readonly T[]): T[] {
  const byGain = (x: Alternative, y: Alternative): number =>
    (gainDb(y) ?? Number.NEGATIVE_INFINITY) - (gainDb(x) ?? Number.NEGATIVE_INFINITY);
  const others = plan.slice(1);
  const rest = others.filter((one) => !isPlain(one)).sort(byGain);
  return [...plan.slice(0, 1), ...[...others.filter(isPlain), ...rest].slice(0, OTHERS).sort(byGain)];
}
