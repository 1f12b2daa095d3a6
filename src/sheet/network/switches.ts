/**
 * Which polarity switches to touch over the whole kit. Delays and arrival signs never pass from one drum to another; what
 * the drums share is a microphone's own switch.
 */
import { type Ends, groupsOf } from './ends';
import { leastAgainst, type SignedReading } from './signs';

/** What a pair would have of its two microphones: `turn` −1: one of the two switches should change, 1: none or both. */
export interface Preference extends Ends {
  drum: string;
  turn: 1 | -1;
  /** above 0: how much it counts beside others that contradict it */
  weight: number;
}

export interface SwitchPlan {
  /** microphones whose switch changes, by number, ascending: as few as there can be */
  change: number[];
  /** preferences by number that can't be met together with the others; empty: all are met */
  unmet: number[];
  /** preferences by number that weren't asked: a microphone of theirs follows another drum */
  ignored: number[];
}

/**
 * @param follows for microphones that hear all drums: the drum that decides (a person's choice); others follow every drum
 * @param references microphones that are turned only where nothing else does: all the others that hang together with one
 * turn instead, which comes to the same
 * @throws RangeError as leastAgainst
 */
export function planSwitches(
  microphones: number,
  preferences: readonly Preference[],
  follows: ReadonlyMap<number, string> = new Map(),
  references: ReadonlySet<number> = new Set(),
): SwitchPlan {
  const asked = ({ drum, a, b }: Preference): boolean => [a, b].every((m) => (follows.get(m) ?? drum) === drum);
  const heard = preferences.filter(asked);
  const readings = heard.map(({ a, b, turn, weight }): SignedReading => ({ a, b, sign: turn, weight }));
  const { signs } = leastAgainst(new Int8Array(microphones).fill(1), readings, true);
  sparing(references, signs, groupsOf(microphones, readings));
  const met = ({ a, b, turn }: Preference): boolean => (signs[a] as number) * (signs[b] as number) === turn;
  const numbers = preferences.map((_, i) => i);
  return {
    change: Array.from(signs, (_, i) => i).filter((i) => signs[i] === -1),
    unmet: numbers.filter((i) => asked(preferences[i] as Preference) && !met(preferences[i] as Preference)),
    ignored: numbers.filter((i) => !asked(preferences[i] as Preference)),
  };
}

/** Turns a whole group over where that leaves more references as they are; of as many the fewest switches, as it is. */
function sparing(
  references: ReadonlySet<number>,
  signs: Int8Array,
  { group, count }: ReturnType<typeof groupsOf>,
): void {
  for (let g = 0; g < count; g++) {
    const held = [...references].filter((i) => group[i] === g);
    const touched = held.filter((i) => signs[i] === -1).length;
    if (touched <= held.length - touched) continue;
    for (let i = 0; i < signs.length; i++) if (group[i] === g) signs[i] = -(signs[i] as number);
  }
}
