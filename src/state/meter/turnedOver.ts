/** A polarity that changed between two hits is called that: the engine only says that the hits before no longer count. */
import type { Advice } from '../../advice/advice';
import { answerOf, type HitReading, type Reading } from '../../reading/reading';

/** so many of the hits before it are asked which way they went */
const HITS_BEFORE = 4;

/** Do the hits that count since something changed all go the other way than those before? */
export function turnedOver(reading: Reading): boolean {
  const { reason } = answerOf(reading);
  if (reason !== 'moved') return false;
  const own = reading.perHit.filter(({ drum, polarity }) => drum === reading.drum && polarity !== null);
  const since = own.filter(({ fate }) => fate === 'used');
  const before = own.filter(({ fate }) => fate === 'old').slice(-HITS_BEFORE);
  const way = oneWay(since);
  const wayBefore = oneWay(before);
  return way !== null && wayBefore !== null && way !== wayBefore;
}

/** The polarity of all of them; null: there are none, or they differ. */
function oneWay(hits: readonly HitReading[]): HitReading['polarity'] {
  const first = hits[0]?.polarity ?? null;
  return hits.every(({ polarity }) => polarity === first) ? first : null;
}

/** That something moved as what it was. */
export const sayTurnedOver = (text: string): string =>
  text.replace(
    /(something|a mic or the drum) moved/gi,
    (found) => `${/^[A-Z]/.test(found) ? 'P' : 'p'}olarity changed`,
  );

export function adviceTurnedOver(advice: Advice): Advice {
  const { text, callOut, sureness, notes } = advice;
  return {
    ...advice,
    text: sayTurnedOver(text),
    callOut: sayTurnedOver(callOut),
    sureness: sayTurnedOver(sureness),
    notes: notes.map(sayTurnedOver),
  };
}
