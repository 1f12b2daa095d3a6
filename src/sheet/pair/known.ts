/** What an accepted reading says of the pair as its switches stand now: looked for in a recheck, so that a few hits are enough while the band plays. */
import type { Taken } from '../document/model';

export interface Known {
  /** arrival at B minus arrival at A */
  delayMs: number;
  /** +1 same, −1 inverted, as the inputs carry it */
  sign: 1 | -1;
  /** 90 %; null: nobody knows */
  uncertaintyMs: number | null;
}

/** @returns null: nothing certain is known @param aInverted @param bInverted the two polarity switches as they stand now */
export function knownOf(then: Taken | null, aInverted: boolean, bInverted: boolean): Known | null {
  if (!then?.sure || then.polarity === null || then.delayMs === null) return null;
  const switched = (then.aInverted !== aInverted) !== (then.bInverted !== bInverted);
  return {
    delayMs: then.delayMs,
    sign: (then.polarity === 'same') === switched ? -1 : 1,
    uncertaintyMs: then.uncertaintyMs,
  };
}
