/** What was done at a pair's microphones, and what was seen since, in the hand-over's words. */
import { fartherText, notedCmText } from '../../text/length';
import { whichText } from '../../text/names';
import type { Done, Pair } from '../document/model';

/** "B inverted, moved 2.5 cm closer": what was done at the microphones. Empty: nothing. */
export function changesText({ inverted, movedCm }: Done): string {
  const parts = [];
  if (inverted) parts.push(`${whichText(inverted)} inverted`);
  if (movedCm) {
    const by = `${notedCmText(movedCm)} ${movedCm > 0 ? 'closer' : 'away'}`;
    parts.push(`${inverted === 'b' ? '' : 'B '}moved ${by}`);
  }
  return parts.join(', ');
}

/** Something was done at the microphones, and no reading came after it. */
export const notReadSince = ({ before, after, done }: Pair): boolean =>
  before !== null && after === null && done !== null && changesText(done) !== '';

/** A second look in words; empty: there was none. */
export function checkedText({ checked }: Pair): string {
  if (!checked) return '';
  const { change, fartherCm } = checked;
  const where = fartherCm === null ? 'B moved' : `B ${fartherText(fartherCm)}`;
  if (change === 'same') return 'as accepted';
  if (change === 'moved') return `${where} than as accepted`;
  if (change === 'polarity') return 'polarity not as accepted';
  return 'can’t tell';
}
