/** How the numbers of a take's pair come about, from the reading that its answer stands in: the meter's own sums. */
import { type ArrivalFrom, arrivalSums } from '../../advice/sums/arrivalSums';
import { levelSumsOf } from '../../advice/sums/levelSums';
import type { Reading } from '../../reading/reading';
import type { Sum } from '../../text/sum';
import type { PairReport } from '../model';

const OWN_HITS: ArrivalFrom = {
  delay: null,
  note: 'Positive: B hears the drum later. On the meter, “Why?” shows every hit in it.',
  each: 'on the meter, under “Why?”',
  wholeAccuracy: false,
};

/** the answer is the other tracks’: it is in no hit of the pair itself */
const OTHERS: ArrivalFrom = {
  delay: 'as it follows from the other tracks',
  note: '',
  each: 'none of its own',
  wholeAccuracy: true,
};

/** gains in the upper bands, the comb and the levels are the meter's */
const SHOWN: ReadonlySet<string> = new Set(['low-octave', 'overall', 'upper-band']);

/**
 * @param reading the whole of what the pair says
 * @param temperatureC of the air, as the take was read with it
 * @returns those that there are; empty: it can't be told
 */
export function takePairSums(pair: PairReport, reading: Reading, temperatureC: number): Sum[] {
  if (pair.state !== 'measured') return [];
  const context = { kind: pair.kind, temperatureC, invertB: false };
  const from =
    pair.from === 'hits' ? OWN_HITS : { ...OTHERS, note: `Positive: B hears the drum later. ${pair.reason}` };
  const gains = levelSumsOf(reading, pair, context).filter(({ id }) => SHOWN.has(id));
  return [...arrivalSums(reading, context, from), ...gains].filter(({ result }) => result !== null);
}
