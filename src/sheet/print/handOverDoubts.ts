/** What the hand-over would have people mind: readings that can't all be true, don't close, or no longer hold. */
import { counted } from '../../text/count';
import { sheetDrumName } from '../../text/names';
import { capital, listText } from '../../text/sentence';
import { plainLine, type SumLine } from '../../text/sum';
import { fixedMs } from '../../text/time';
import { type KitSheet, knownUncertaintyMs, lastTaken, type Pair, type Taken } from '../document/model';
import type { DrumSystem } from '../kit/drumSystem';
import { closureNumber, sumIdOf } from '../sums/sumPlace';
import { changesText, checkedText, notReadSince } from './handOverChanges';
import { printedPair } from './printedNames';

/** Of many pairs on one drum the worst are enough: one wrong reading opens every triangle that it is in. */
const MOST_OPEN = 4;
const MOST_SUSPECTS = 3;

/** One sentence each: readings that can't all be true, don't close, are from before a change, or didn't hold. */
export const doubtsOf = (sheet: KitSheet, drums: readonly DrumSystem[]): string[] =>
  doubtLines(sheet, drums).map(({ text }) => text);

/** The same, with the names of their numbers. */
export function doubtLines(sheet: KitSheet, drums: readonly DrumSystem[]): SumLine[] {
  const of = (id: string): Pair => sheet.pairs.find((one) => one.id === id) as Pair;
  const names = (ids: readonly string[]): string => listText(ids.map((id) => printedPair(sheet, of(id))));
  const sentences = drums.flatMap(({ drum, contradiction, suspects, open }) => {
    const start = `${capital(sheetDrumName(drum))}: `;
    const said: SumLine[] = [];
    const say = (text: string): void => void said.push(plainLine(text));
    if (contradiction.length > 0) say(`${start}the polarities of ${names(contradiction)} can’t all be right.`);
    for (const [n, { pairs, errorMs }] of open.slice(0, MOST_OPEN).entries()) {
      const vague = pairs.some((id) => knownUncertaintyMs(lastTaken(of(id)) as Taken) === null);
      const left = `off by ${fixedMs(Math.abs(errorMs), 2)}`;
      // without an accuracy of its own a reading counts as an assumed one
      const how = vague
        ? `don’t add up: ${left}, and the accuracy of one is unknown`
        : `don’t add up, even allowing for their ±: ${left}`;
      const name = `the delays of ${names(pairs)}`;
      const id = sumIdOf({ kind: 'drum', of: drum, number: closureNumber(n) });
      said.push({ text: `${start}${name} ${how}.`, sums: [{ name, id }] });
    }
    if (open.length > MOST_OPEN)
      say(`${start}the delays of ${counted(open.length - MOST_OPEN, 'more set')} of three don’t add up.`);
    if (suspects.length > 0) {
      const more = suspects.length > MOST_SUSPECTS ? `; ${suspects.length - MOST_SUSPECTS} more` : '';
      say(
        `${start}most likely wrong${suspects.length > 1 ? ', in this order' : ''}: ${names(suspects.slice(0, MOST_SUSPECTS))}${more}.`,
      );
    }
    return said;
  });
  for (const pair of sheet.pairs) {
    if (notReadSince(pair))
      sentences.push(
        plainLine(`${printedPair(sheet, pair)}: not measured again since this was done: ${changesText(sheet, pair)}.`),
      );
    const change = pair.checked?.change;
    const name = printedPair(sheet, pair);
    if (change === 'moved' || change === 'polarity')
      sentences.push({
        text: `${name}: at the recheck, ${checkedText(pair)}.`,
        sums: change === 'moved' ? [{ name, id: sumIdOf({ kind: 'pair', of: pair.id, number: 'recheck' }) }] : [],
      });
  }
  return sentences;
}
