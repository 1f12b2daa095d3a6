/** How far a mic went between two readings, and how that comes about. */
import { furtherText, spanText } from '../../text/length';
import { fixed, NO_VALUE, signed } from '../../text/number';
import type { Sum } from '../../text/sum';
import type { Recheck } from '../pair/recheck';

export interface Compared {
  id: string;
  name: string;
  /** null: the paths weren’t kept */
  pathsCm: Recheck['pathsCm'];
  fartherCm: number;
  /** a smaller change wouldn’t be seen, cm; null: not known any more */
  seenFromCm: number | null;
  /** when the two were read: "14:10" */
  first: string;
  second: string;
}

const cm = (value: number): string => `${signed(value, 2)} cm`;

export function recheckSum({ id, name, pathsCm, fartherCm, seenFromCm, first, second }: Compared): Sum {
  const [thenCm, nowCm] = pathsCm ?? [null, null];
  const shown = `${cm(fartherCm)}, shown as ${furtherText(fartherCm)}`;
  return {
    id,
    name,
    formula: 'd = s′ − s',
    inputs: [
      { symbol: 's′', is: `B’s path beyond A’s, ${second}`, value: nowCm === null ? NO_VALUE : cm(nowCm) },
      { symbol: 's', is: `the same, ${first}`, value: thenCm === null ? NO_VALUE : cm(thenCm) },
      ...(seenFromCm === null
        ? []
        : [
            {
              symbol: '',
              is: 'smallest change that would show: 5 mm, or three times the spread of both, or ± of a reading from few hits',
              value: spanText(seenFromCm),
            },
          ]),
    ],
    worked:
      thenCm === null || nowCm === null
        ? `d = ${shown}`
        : `${cm(nowCm)} ${thenCm < 0 ? '+' : '−'} ${fixed(Math.abs(thenCm), 2)} cm = ${shown}`,
    result: fartherCm,
    note: `${pathsCm === null ? 'The two paths weren’t kept when this was noted. ' : ''}Each in the air of its time, or both in today’s: whichever leaves less of a change, so that warmer air isn’t taken for a move.`,
    source: 'Path: delay · speed of sound. The rest is arithmetic.',
  };
}
