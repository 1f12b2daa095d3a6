/** Why a pair gets something else in the whole kit than it would have by itself. */
import type { Alternative } from '../../advice/plan/alternatives';
import type { KitSheet, Pair } from '../document/model';
import type { Step } from '../network/together';
import { type Asking, followsOther, UNKNOWN_DB } from './kitLoss';

export type Because =
  /** the microphone stays as it is, or is inverted, for another pair's sake */
  | { code: 'pair'; microphone: string; inverted: boolean; pair: string }
  /** the microphone follows another drum */
  | { code: 'follows'; microphone: string; drum: string }
  /** the delay of the other pair comes first */
  | { code: 'delay'; pair: string }
  /** the other pair would lose more by it, or it was left on purpose */
  | { code: 'loses'; pair: string; left: boolean }
  /** what the other pair would gain then isn't known */
  | { code: 'unknown'; pair: string };

interface Given {
  /** numbered as for the network: these, then the rest */
  asking: readonly Asking[];
  rest: readonly Pair[];
  invert: readonly string[];
  pair: Pair;
  own: Alternative;
  gets: Alternative;
  /** which pair would lose most if it had its own */
  against: { pair: number; step: Step; lossDb: number } | null;
}

export function whyNot(sheet: KitSheet, { asking, rest, invert, pair, own, gets, against }: Given): Because | null {
  const follows = followsOther(sheet, pair);
  if (follows && own.invertB !== gets.invertB) return { code: 'follows', ...follows };
  if (against === null) return null;
  const { step, lossDb } = against;
  const one = asking[against.pair];
  const by = one?.pair ?? (rest[against.pair - asking.length] as Pair);
  if (!one || lossDb === UNKNOWN_DB) return { code: 'unknown', pair: by.id };
  if (step.turned && step.byMs === 0) {
    const microphone =
      [pair.a, pair.b].find((id) => id === by.a || id === by.b) ??
      (step.by.who[sheet.microphones.findIndex(({ id }) => id === pair.a)] === 1 ? pair.a : pair.b);
    return { code: 'pair', microphone, inverted: invert.includes(microphone), pair: by.id };
  }
  if (one.plan.leftOnPurpose) return { code: 'loses', pair: by.id, left: true };
  return one.own.delayMs === null ? { code: 'loses', pair: by.id, left: false } : { code: 'delay', pair: by.id };
}
