/** What was done at a pair's microphones, what is left to do, and what was seen since. */
import { furtherText, notedCmText } from '../../text/length';
import { listText } from '../../text/sentence';
import type { KitSheet, Pair } from '../document/model';
import type { KitChoice } from '../kit/kitChoice';
import { LEFT, leftText } from '../kit/pairLine';
import { printedName } from './printedNames';

/** "Snare bottom inverted and moved 2.5 cm closer": what was done at the microphones. Empty: nothing. */
export function changesText(sheet: KitSheet, { a, b, done }: Pair): string {
  if (!done) return '';
  const { inverted, movedCm } = done;
  const which = inverted === 'both' ? [a, b] : inverted === 'a' ? [a] : [b];
  const turned = inverted ? `${listText(which.map((id) => printedName(sheet, id)))} inverted` : '';
  if (!movedCm) return turned;
  const by = `moved ${notedCmText(movedCm)} ${movedCm > 0 ? 'closer' : 'back'}`;
  if (inverted === 'b') return `${turned} and ${by}`;
  return `${turned === '' ? '' : `${turned}, `}${printedName(sheet, b)} ${by}`;
}

/** Something was done at the microphones, and no reading came after it. */
export const notReadSince = ({ before, after, done }: Pair): boolean =>
  before !== null && after === null && (done?.inverted != null || Boolean(done?.movedCm));

/** Everything that was written down of the pair, and what is left to do: a sentence each, without its full stop. */
export function doneAndLeft(sheet: KitSheet, choice: KitChoice | null, pair: Pair): string[] {
  const changes = changesText(sheet, pair);
  const left = leftText(sheet, choice, pair, (id) => printedName(sheet, id));
  const note = pair.done?.note.trim() ?? '';
  const said = [];
  if (changes) said.push(`Done: ${changes}${notReadSince(pair) ? ' (not measured again since)' : ''}`);
  if (pair.done?.leftOnPurpose) said.push(`Left on purpose${note ? `: “${note}”` : ''}`);
  else if (note) said.push(`Note: “${note}”`);
  if (left !== '' && left !== LEFT)
    said.push(`${pair.acceptedAt === null ? 'Plan, not accepted' : 'In the mix'}: ${left}`);
  return said;
}

/** A recheck in words; empty: there was none. */
export function checkedText({ checked }: Pair): string {
  if (!checked) return '';
  const { change, fartherCm } = checked;
  const where = fartherCm === null ? 'B isn’t where it was' : `B ${furtherText(fartherCm)} than`;
  if (change === 'same') return 'same as accepted';
  if (change === 'moved') return `${where} when accepted`;
  if (change === 'polarity') return 'polarity inverted since accepted';
  return 'can’t tell';
}
