/** What became of a hit, in words. */
import type { HitPicture } from '../../reading/hitPictures';
import type { HitReading, Reading } from '../../reading/reading';
import { whichText } from '../../text/names';
import { signedMsText } from '../../text/time';
import { type Fate, fateOf, type Where } from '../plan/hitFates';

/** "used", "clipped in A", "delay off by +0.31 ms"; the picture, where there is one, says more. */
export function fateText(hit: HitReading, reading: Reading, picture: HitPicture | null): string {
  return sayFate(fateOf(hit, reading, picture));
}

const inText = (where: Where | null): string => (where === null ? '' : ` in ${whichText(where)}`);

function sayFate(fate: Fate): string {
  switch (fate.code) {
    case 'other-drum':
      return fate.drum === null ? 'another drum' : `another drum (${fate.drum})`;
    case 'listed-drum':
      return `used for drum ${fate.drum}`;
    case 'clipped':
      return `clipped${inText(fate.in)}`;
    case 'quiet':
      return `too quiet${inText(fate.in)}`;
    case 'noisy':
      return `first push buried in noise${inText(fate.in)}`;
    case 'one-side-only':
      return fate.heardIn === null ? 'in one mic only' : `only ${whichText(fate.heardIn)} heard it`;
    case 'disagrees':
      return fate.byMs === null ? 'doesn’t match the others' : `delay off by ${signedMsText(fate.byMs)}`;
    default:
      return PLAIN[fate.code];
  }
}

type Plain = Exclude<
  Fate['code'],
  'other-drum' | 'listed-drum' | 'clipped' | 'quiet' | 'noisy' | 'one-side-only' | 'disagrees'
>;
const PLAIN: Readonly<Record<Plain, string>> = {
  used: 'used',
  'used-for-the-sum': 'used for the sum only',
  'agrees-so-far': 'agrees so far',
  pending: 'being measured',
  'two-drums': 'two drums at once',
  'too-soon': 'too soon after the last',
  'dropped-audio': 'audio was dropped here',
  'no-clear-push': 'no clear first push',
  'too-long-ago': 'too long ago',
  'before-the-move': 'before the move',
  'other-polarity': 'opposite polarity',
};
