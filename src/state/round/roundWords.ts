/** What the round says: what to patch, what was expected and read, what was done since, what a second look found. */

import { pathCm } from '../../reading/acoustics';
import { labelOf } from '../../sheet/document/labels';
import {
  type Checked,
  type Done,
  isInverted,
  type KitSheet,
  lastTaken,
  type Microphone,
  microphoneOf,
  type Pair,
  type Taken,
} from '../../sheet/document/model';
import { expectedOf, usualPolarity } from '../../sheet/pair/expected';
import type { Outcome } from '../../sheet/pair/outcome';
import { LAST_READING, type Recheck, recheckText } from '../../sheet/pair/recheck';
import { agreeingHits, pathSaidOf } from '../../sheet/pair/taken';
import { clockText } from '../../text/clock';
import { hitsText } from '../../text/count';
import { bandText, rateText } from '../../text/frequency';
import { notedCmText, pathText, spanText } from '../../text/length';
import { dbText } from '../../text/level';
import { patchedName, whichText } from '../../text/names';
import { fixed, orNoValue } from '../../text/number';
import type { Halt } from '../meter/meterTypes';

export const NO_EXAMPLE =
  'The example kit doesn’t have this pair: put the pair off, or bring it yourself from Sources.';

/** What a press comes to while the source is halted. */
export const HALTED: Record<Halt, string> = {
  dropped: 'The computer drops audio, so nothing is noted or accepted until it keeps up.',
  'other-input': 'This may be another input, so nothing is noted or accepted until A and B are identified again.',
  mix: 'A and B carry a mix, so nothing is noted or accepted until they come apart.',
  fault: 'The meter has stopped, so nothing is noted or accepted until it runs again.',
  none: 'Nothing arrives, so nothing is noted or accepted until it does.',
};

/** "Snare top (input 5)" */
const place = (one: Microphone | undefined): string => patchedName(one?.label, one?.input);

/** What is to be patched where, and which drum is to be struck. @param swapped input 2 is A */
export function patchText(sheet: KitSheet, { a, b, drum }: Pair, swapped: boolean): string {
  const [first, second] = swapped ? [b, a] : [a, b];
  const find = (id: string) => microphoneOf(sheet, id);
  const strike = drum === '' ? 'single hits on one drum' : `single hits on the ${drum}`;
  return `Patch ${place(find(first))} to interface input 1 and ${place(find(second))} to interface input 2, then ${strike}.`;
}

/** Where the pair in hand is to come from; `no-example`: the example kit doesn't have it. */
export type Feed = 'inputs' | 'recording' | 'example' | 'opening-example' | 'no-example';

/** What a pair needs before it can be read. @param swapped input 2 is A */
export function bringText(sheet: KitSheet, pair: Pair, feed: Feed, swapped: boolean): string {
  switch (feed) {
    case 'inputs':
      return patchText(sheet, pair, swapped);
    case 'recording':
      return `Open the recording of ${labelOf(sheet, pair.a)} and ${labelOf(sheet, pair.b)}.`;
    case 'example':
      return `Open the example of ${labelOf(sheet, pair.a)} and ${labelOf(sheet, pair.b)}.`;
    case 'opening-example':
      return `Opening the example of ${labelOf(sheet, pair.a)} and ${labelOf(sheet, pair.b)} …`;
    case 'no-example':
      return NO_EXAMPLE;
  }
}

/** What is usual of the pair as its switches stand, before anything is read. */
export function expectationText(sheet: KitSheet, { kind, a, b }: Pair): string {
  const turned = isInverted(sheet, a) !== isInverted(sheet, b);
  const polarity = usualPolarity(kind, turned);
  if (polarity === null) return 'Either polarity is possible.';
  return `Expected ${polarity}${turned ? ', with one mic inverted' : ''}.`;
}

/** "Expected inverted, measured inverted.", and how the plan goes with it. */
export const comparedText = (sheet: KitSheet, pair: Pair, taken: Taken, plan = taken.plan): string =>
  expectedOf(sheet, pair, taken, plan).text;

/** What was done at the microphones: "B inverted, B moved 2.5 cm closer to the drum, left on purpose: wanted thin"; empty: nothing */
function doneText(done: Done | null): string {
  if (done === null) return '';
  const parts: string[] = [];
  if (done.inverted) parts.push(`${whichText(done.inverted)} inverted`);
  if (done.movedCm !== null)
    parts.push(`B moved ${notedCmText(done.movedCm)} ${done.movedCm > 0 ? 'closer to' : 'back from'} the drum`);
  if (done.leftOnPurpose) parts.push('left on purpose');
  const said = parts.join(', ');
  return [said, done.note].filter((text) => text !== '').join(': ');
}

/** What happened between the readings; empty: nothing. */
export function sinceText({ after, done }: Outcome): string {
  return after === null ? '' : doneText(done);
}

/** A reading in one line: "inverted, B 2.5 cm further ±8 mm (90 %), hit-to-hit spread ±1 mm, the drum's low octave fuller inverted by 7.8 dB, 8 of 9 hits agree, 48 kHz, 20 °C". */
export function takenText(taken: Taken): string {
  const from = taken.files ? `, from the tracks ${taken.files.join(' and ')}` : '';
  const { agree, of } = agreeingHits(taken);
  const count = taken.sure ? `${agree} of ${hitsText(of)} agree` : `${hitsText(taken.hits)} heard`;
  const hits = `${count}, ${rateText(taken.sampleRate)}, ${fixed(taken.temperatureC, 0)} °C${from}`;
  const octave = `the drum’s low octave${taken.fullerLowHz === null || taken.fullerHighHz === null ? '' : ` (${bandText(taken.fullerLowHz, taken.fullerHighHz)})`}`;
  const fuller =
    taken.fuller === null
      ? ''
      : taken.fuller === 'either'
        ? `, ${octave} the same either way`
        : `, ${octave} fuller ${taken.fuller === 'as-is' ? 'as it is' : 'inverted'} by ${dbText(taken.fullerDb ?? 0)}`;
  if (!taken.sure) return `uncertain: ${taken.reason}${fuller}, ${hits}`;
  const cm = (ms: number): string => spanText(pathCm(ms / 1000, taken.temperatureC));
  const known = taken.uncertaintyMs === null ? ', accuracy unknown' : ` ±${cm(taken.uncertaintyMs)} (90 %)`;
  const repeats = taken.spreadMs === null ? '' : `, hit-to-hit spread ±${cm(taken.spreadMs)}`;
  return `${taken.polarity}, ${pathSaid(taken)}${known}${repeats}${fuller}, ${hits}`;
}

const pathSaid = (taken: Taken): string => orNoValue(pathSaidOf(taken), (cm) => pathText(cm));

/** Does what is said of the pair in hand send hands to a cable, a switch or a stand? */
export function sendsHands({ sheet, pair, mode, patching, read, compared }: RoundState): boolean {
  if (patching || !read?.sure) return false;
  if (mode === 'check') return compared?.change === 'moved' || compared?.change === 'polarity';
  const { verdict } = expectedOf(sheet, pair, read);
  return verdict === 'other' || verdict === 'low-octave';
}

/** A recheck that is on the sheet: "Recheck 15:02: 2.4 cm further than at 14:10." */
export function recheckedText(sheet: KitSheet, pair: Pair, checked: Checked, now: Date): string {
  const then = lastTaken(pair);
  const at = then ? clockText(then.takenAt, now) : LAST_READING;
  const text = recheckText({ ...checked, seenFromCm: null }, labelOf(sheet, pair.b), at);
  return `Recheck ${clockText(checked.checkedAt, now)}: ${text}`;
}

export interface RoundState {
  sheet: KitSheet;
  pair: Pair;
  mode: 'measure' | 'check';
  patching: boolean;
  swapped: boolean;
  feed: Feed;
  read: Taken | null;
  compared: Recheck | null;
  now: Date;
}

/** What is to be done or seen of the pair in hand, in one sentence. */
export function sayRound({ sheet, pair, mode, patching, swapped, feed, read, compared, now }: RoundState): string {
  if (patching) return bringText(sheet, pair, feed, swapped);
  if (mode === 'check') {
    const then = lastTaken(pair);
    const at = then ? clockText(then.takenAt, now) : LAST_READING;
    if (!compared || !read?.sure) return `${labelOf(sheet, pair.b)}: nothing to compare with ${at} yet.`;
    return recheckText(compared, labelOf(sheet, pair.b), at);
  }
  return !read || read.hitsUsed === 0 ? expectationText(sheet, pair) : comparedText(sheet, pair, read);
}
