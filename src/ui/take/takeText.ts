/** What a take’s page says in a few words. */
import type { DrumReport, PairReport } from '../../take/model';
import { stemOf } from '../../take/names';
import { cmNumber, cmText } from '../../text/length';
import { gainText } from '../../text/level';
import { orNoValue } from '../../text/number';
import { msText } from '../../text/time';

/** The track that a drum’s others are compared with: its own, else the one that most pairs begin with. */
export function headOf({ ownTrack, pairs }: DrumReport): string | null {
  return ownTrack ?? pairs[0]?.a ?? null;
}

/** "67 cm", "−12 cm": how much farther from the drum, as sound travels. */
export const laterText = (pathCm: number | null): string =>
  orNoValue(pathCm, (cm) => `${cm < 0 && cmNumber(cm) !== '0' ? '−' : ''}${cmText(cm)}`);

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
