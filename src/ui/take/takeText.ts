/** What a take’s page says in a few words. */
import type { PairReport } from '../../take/model';
import { stemOf } from '../../take/names';
import { cmNumber, cmText } from '../../text/length';
import { gainText } from '../../text/level';
import { orNoValue } from '../../text/number';
import { msText } from '../../text/time';

/** "67 cm further", "12 cm nearer", "0 cm": from the drum, as sound travels. */
export const laterText = (pathCm: number | null): string =>
  orNoValue(pathCm, (cm) => `${cmText(cm)}${cmNumber(cm) === '0' ? '' : cm < 0 ? ' nearer' : ' further'}`);

/** What is recommended of the second of a pair, in a few words: "invert: +4 dB", "leave". Null: nothing is. */
export function toDo({ a, plan }: PairReport): string | null {
  const best = plan.find(({ recommended }) => recommended);
  if (!best) return null;
  const steps = [
    ...(best.invertB ? ['invert'] : []),
    ...(best.moveCm === null ? [] : [`${cmText(best.moveCm)} ${best.moveCm > 0 ? 'closer' : 'back'}`]),
    ...(best.delayMs ? [`delay ${best.delayMs > 0 ? stemOf(a) : 'it'} ${msText(Math.abs(best.delayMs))}`] : []),
  ];
  if (steps.length === 0) return 'leave';
  return `${steps.join(', ')}: ${orNoValue(best.lowDb, gainText)}`;
}
