/** What the hand-over would have people mind: readings that can't all be true, don't close, or no longer hold. */
import { counted } from '../../text/count';
import { sheetDrumName } from '../../text/names';
import { capital, listText } from '../../text/sentence';
import { fixedMs } from '../../text/time';
import { type KitSheet, knownUncertaintyMs, lastTaken, type Pair, type Taken } from '../document/model';
import type { DrumSystem } from '../kit/drumSystem';
import { changesText, checkedText, notReadSince } from './handOverChanges';
import { printedPair } from './printedNames';

/** Of many pairs on one drum the worst are enough: one wrong reading opens every triangle that it is in. */
const MOST_OPEN = 4;
const MOST_SUSPECTS = 3;

/** One sentence each: readings that can't all be true, don't close, are from before a change, or didn't hold. */
export function doubtsOf(sheet: KitSheet, drums: readonly DrumSystem[]): string[] {
  const of = (id: string): Pair => sheet.pairs.find((one) => one.id === id) as Pair;
  const names = (ids: readonly string[]): string => listText(ids.map((id) => printedPair(sheet, of(id))));
  const sentences = drums.flatMap(({ drum, contradiction, suspects, open }) => {
    const start = `${capital(sheetDrumName(drum))}: `;
    const said = [];
    if (contradiction.length > 0) said.push(`${start}the polarities of ${names(contradiction)} can’t all be right.`);
    for (const { pairs, errorMs } of open.slice(0, MOST_OPEN)) {
      const vague = pairs.some((id) => knownUncertaintyMs(lastTaken(of(id)) as Taken) === null);
      const left = `off by ${fixedMs(Math.abs(errorMs), 2)}`;
      // without an accuracy of its own a reading counts as an assumed one
      const how = vague
        ? `don’t add up: ${left}, and the accuracy of one is unknown`
        : `don’t add up, even allowing for their ±: ${left}`;
      said.push(`${start}the delays of ${names(pairs)} ${how}.`);
    }
    if (open.length > MOST_OPEN)
      said.push(`${start}the delays of ${counted(open.length - MOST_OPEN, 'more set')} of three don’t add up.`);
    if (suspects.length > 0) {
      const more = suspects.length > MOST_SUSPECTS ? `; ${suspects.length - MOST_SUSPECTS} more` : '';
      said.push(
        `${start}most likely wrong${suspects.length > 1 ? ', in this order' : ''}: ${names(suspects.slice(0, MOST_SUSPECTS))}${more}.`,
      );
    }
    return said;
  });
  for (const pair of sheet.pairs) {
    if (notReadSince(pair))
      sentences.push(
        `${printedPair(sheet, pair)}: not measured again since this was done: ${changesText(sheet, pair)}.`,
      );
    const change = pair.checked?.change;
    if (change === 'moved' || change === 'polarity')
      sentences.push(`${printedPair(sheet, pair)}: at the recheck, ${checkedText(pair)}.`);
  }
  return sentences;
}
