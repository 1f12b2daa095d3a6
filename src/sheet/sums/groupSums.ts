/** What several mics on one drum come to together in a low octave, with the kit's switches and with the best. */
import { LOW_OCTAVES_HZ } from '../../reading/bands';
import { bandText } from '../../text/frequency';
import { gainText } from '../../text/level';
import { fixed, signed } from '../../text/number';
import { listText } from '../../text/sentence';
import type { Sum } from '../../text/sum';
import { labelOf } from '../document/labels';
import type { KitSheet } from '../document/model';
import { type DrumGroup, groupReadings } from '../kit/drumGroup';
import { type GroupGain, groupGains } from '../kit/groupGains';
import type { KitChoice } from '../kit/kitChoice';
import { below } from './below';
import { GROUP_NUMBER, sumIdOf } from './sumPlace';

const NAMES: Readonly<Record<GroupGain['what'], string>> = {
  chosen: 'Gain of all together, with the kit’s switches',
  better: 'What other switches could give more',
};

export function groupSums(sheet: KitSheet, group: DrumGroup, choice: KitChoice): Sum[] {
  const { microphones, edges, band, matrix } = groupReadings(sheet, group.drum);
  if (matrix === null || band === null) return [];
  const count = microphones.length;
  const lowHz = LOW_OCTAVES_HZ[band] as number;
  const re = edges.map(({ i, j }) => (matrix[i] as number[])[j] as number);
  /** 1: the two are turned alike */
  const signs = (turned: readonly string[]): number[] => {
    const sign = (m: number): number => (turned.includes(microphones[m] as string) ? -1 : 1);
    return edges.map(({ i, j }) => sign(i) * sign(j));
  };
  const power = (of: readonly number[]): number =>
    count + 2 * of.reduce((sum, sign, e) => sum + sign * (re[e] as number), 0);
  const said = (of: readonly number[], show: (e: number) => string): string =>
    of.map((sign, e) => `${sign < 0 ? '− ' : e === 0 ? '' : '+ '}${show(e)}`).join(' ');
  const name = (m: number): string => labelOf(sheet, microphones[m] as string);
  return groupGains(group, choice).map(({ what, from, to, gainDb }, n): Sum => {
    const [first, second] = [signs(from), signs(to)];
    const symbol = (e: number): string => `γ${below(e + 1)}`;
    const figure = (e: number): string => {
      const value = re[e] as number;
      return value < 0 ? `(${fixed(value, 4)})` : fixed(value, 4);
    };
    const line = (letter: string, of: readonly number[]): string =>
      `${letter} = ${count} + 2 · (${said(of, figure)}) = ${fixed(power(of), 4)}`;
    const turned = (ids: readonly string[]): string =>
      ids.length === 0
        ? 'with the switches as they stand'
        : `with ${listText(ids.map((id) => labelOf(sheet, id)))} inverted`;
    return {
      id: sumIdOf({ kind: 'drum', of: group.drum, number: n === 0 ? GROUP_NUMBER : `${GROUP_NUMBER}-${what}` }),
      name: NAMES[what],
      formula: `P = N + 2 · (${said(first, symbol)}),  Q = N + 2 · (${said(second, symbol)}),  gain = 10 · lg(Q ÷ P)`,
      inputs: [
        { symbol: 'N', is: 'mics on the drum', value: String(count) },
        ...edges.map(({ i, j }, e) => ({
          symbol: symbol(e),
          is: `how alike ${name(i)} and ${name(j)} are at ${bandText(lowHz, 2 * lowHz)}`,
          value: signed(re[e] as number, 4),
        })),
      ],
      worked: `${line('P', first)}\n${line('Q', second)}\ngain = ${signed(gainDb, 2)} dB, shown as ${gainText(gainDb)}`,
      result: gainDb,
      note: `P: ${turned(from)}. Q: ${turned(to)}. All at equal level, with no delay between them. Less than a thousandth of unrelated mics’ power counts as that much.`,
      source: 'The power of a sum is the sum of all products, two by two: arithmetic.',
    };
  });
}
