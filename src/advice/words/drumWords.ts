/** The drums that were heard, in words: what each one says, which one the reading is about. */
import type { HitCounts, Reading, Said } from '../../reading/reading';
import { hitsText } from '../../text/count';
import { pathText } from '../../text/length';
import { drumNumber, theDrum } from '../../text/names';
import { lowerFirst } from '../../text/sentence';
import type { AdviceContext } from '../advice';
import { drumSays, usedHits, type WhichDrum, whichShown } from '../plan/drums';
import { endedWords, reasonWords } from './reasonWords';
import { micNames } from './wording';

/** What the names of drums and microphones are taken from. */
export type Names = Pick<AdviceContext, 'aLabel' | 'bLabel' | 'drumNames'>;

/** "snare" where somebody said so, else "drum 2" */
export const drumCalled = (id: number, { drumNames }: Names): string => drumNumber(id, drumNames?.get(id));

/** The same inside a sentence: "the snare", "drum 2" */
export const theDrumCalled = (id: number, { drumNames }: Names): string => theDrum(id, drumNames?.get(id));

/** A drum's own answer in short, `ended` as in AdviceContext: "inverted, B 12 cm further", "no answer yet: hit 2 of 4", "can’t tell: the hits don’t agree". */
export function drumAnswer(
  drum: Pick<Said, 'state' | 'reason' | 'polarity' | 'delaySamples' | keyof HitCounts>,
  reading: Pick<Reading, 'sampleRate' | 'hitsNeeded'>,
  temperatureC: number,
  ended = false,
  names: Names = {},
): string {
  const says = drumSays(drum, reading, temperatureC, ended);
  switch (says.code) {
    case 'measured':
      return `${says.polarity ?? 'polarity unknown'}, ${pathText(says.pathCm, micNames(names))}`;
    case 'following':
      return 'a mic is being moved';
    case 'ended':
      return lowerFirst(endedWords(says.reason).short);
    case 'listening':
      return `no answer yet: ${reasonWords(says.reason).short}`;
    case 'cannot-tell':
      return `can’t tell: ${reasonWords(says.reason).short}`;
  }
}

/** "drum 2, the meter’s pick", "snare, your choice"; empty where none needs to be told */
export function whichDrumText(which: WhichDrum | null, names: Names = {}): string {
  if (which === null) return '';
  return `${drumCalled(which.drum, names)}, ${which.code === 'chosen' ? 'your choice' : 'the meter’s pick'}`;
}

/** What the reading used: "9 of all 31 hits (drum 2, the meter’s pick)"; "6 of 6 hits" where one drum is heard. */
export function usedText(reading: Reading, names: Names = {}): string {
  const { used, of, ofAllDrums } = usedHits(reading);
  const which = whichDrumText(whichShown(reading), names);
  return `${used} of ${ofAllDrums ? 'all ' : ''}${hitsText(of)}${which === '' ? '' : ` (${which})`}`;
}
