/**
 * Which polarity switches to touch over the whole kit. Delays and arrival signs never pass from one drum to another; what
 * the drums share is a microphone's own switch.
 */
import type { Ends } from './ends';
import { leastAgainst, type SignedReading } from './signs';

/** What one drum would have two microphones do: `turn` −1: one of the two switches should change, 1: none or both. */
export interface Wish extends Ends {
  drum: string;
  turn: 1 | -1;
  /** above 0: how much it counts beside others that contradict it */
  weight: number;
}

export interface SwitchPlan {
  /** microphones whose switch changes, by number, ascending: as few as there can be */
  change: number[];
  /** wishes by number that can't be met together with the others; empty: all are met */
  unmet: number[];
  /** wishes by number that weren't asked: a microphone of theirs follows another drum */
  ignored: number[];
}

/**
 * @param follows for microphones that hear all drums: the drum that decides (a person's choice); others follow every drum
 * @throws RangeError, TooManyTogether as leastAgainst
 */
export function planSwitches(
  microphones: number,
  wishes: readonly Wish[],
  follows: ReadonlyMap<number, string> = new Map(),
): SwitchPlan {
  const asked = ({ drum, a, b }: Wish): boolean => [a, b].every((m) => (follows.get(m) ?? drum) === drum);
  const heard = wishes.filter(asked);
  const readings = heard.map(({ a, b, turn, weight }): SignedReading => ({ a, b, sign: turn, weight }));
  const { signs } = leastAgainst(new Int8Array(microphones).fill(1), readings);
  const met = ({ a, b, turn }: Wish): boolean => (signs[a] as number) * (signs[b] as number) === turn;
  const numbers = wishes.map((_, i) => i);
  return {
    change: Array.from(signs, (_, i) => i).filter((i) => signs[i] === -1),
    unmet: numbers.filter((i) => asked(wishes[i] as Wish) && !met(wishes[i] as Wish)),
    ignored: numbers.filter((i) => !asked(wishes[i] as Wish)),
  };
}
