/** The track that a drum's others are compared with: its own, else the one that most pairs begin with. */
import type { DrumReport } from '../../take/model';
import { cmText } from '../../text/length';
import { orNoValue } from '../../text/number';

export function headOf({ ownTrack, pairs }: DrumReport): string | null {
  return ownTrack ?? pairs[0]?.a ?? null;
}

/** "67 cm", "−12 cm": how much farther from the drum, as sound travels. */
export const laterText = (pathCm: number | null): string =>
  orNoValue(pathCm, (cm) => `${cm < 0 ? '−' : ''}${cmText(cm)}`);
