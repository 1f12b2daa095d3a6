/** How the hand-over says names, times and figures: never finer than what is known, an en dash for what isn't. */

import { pathCm } from '../../reading/acoustics';
import { samplesText, wholeSamples } from '../../text/count';
import { bandText } from '../../text/frequency';
import { cmNumber, cmText, fartherText, roundPathCm, spanText } from '../../text/length';
import { dbText } from '../../text/level';
import { microphoneName, patchedName, whichText } from '../../text/names';
import { atMost, NO_VALUE } from '../../text/number';
import { msText } from '../../text/time';
import {
  type Done,
  type KitSheet,
  knownUncertaintyMs,
  lastTaken,
  type Microphone,
  microphoneOf,
  type Pair,
  type Taken,
} from '../document/model';
import { fullerTurned, polarityNow } from '../pair/asItStands';

/** A label that names one microphone only: its input follows where there is no label, or two have the same. */
export function nameOf(sheet: KitSheet, id: string): string {
  const one = microphoneOf(sheet, id);
  if (!one) return id;
  const label = one.label.trim();
  const input = one.input.trim();
  if (label === '') return input === '' ? `${microphoneName('')} (${id})` : patchedName(label, input);
  const alike = sheet.microphones.filter((other) => other.label.trim() === label);
  if (alike.length < 2) return label;
  const apart = input !== '' && alike.every((other: Microphone) => other === one || other.input.trim() !== input);
  return apart ? patchedName(label, input) : `${label} (${id})`;
}

export const pairName = (sheet: KitSheet, { a, b }: Pair): string => `${nameOf(sheet, a)} → ${nameOf(sheet, b)}`;

/** "3.5 cm ±7 mm farther", "104 ±2.7 cm farther": B's, in the air of the reading. */
export function pathText(taken: Taken): string {
  if (!taken.sure || taken.delayMs === null) return NO_VALUE;
  const cm = (ms: number): number => pathCm(ms / 1000, taken.temperatureC);
  const known = knownUncertaintyMs(taken);
  const path = roundPathCm(cm(taken.delayMs), cm(known ?? taken.spreadMs ?? 0));
  const accuracy = known === null ? ', ± not known' : ` ±${spanText(cm(known))}`;
  if (path === 0) return `level with A${accuracy}`;
  const where = path > 0 ? 'farther' : 'closer';
  return known === null ? `${cmText(path)} ${where}${accuracy}` : `${withUnit(cmNumber(path), accuracy)} ${where}`;
}

/** "104 ±2.7 cm": a unit that both have is said once. */
const withUnit = (cm: string, accuracy: string): string => `${cm}${accuracy.endsWith(' cm') ? '' : ' cm'}${accuracy}`;

/** "inverted, sure"; "inverted, sure; now same" where the switches stand otherwise now; "not sure: reason". */
export function polarityText(sheet: KitSheet, pair: Pair, taken: Taken): string {
  const { sure, reason, polarity } = taken;
  if (!sure) return reason.trim() ? `not sure: ${reason.trim()}` : 'not sure';
  if (polarity === null) return NO_VALUE;
  const now = polarityNow(sheet, pair, taken);
  return now === polarity ? `${polarity}, sure` : `${polarity}, sure; now ${now}`;
}

/** Which polarity sums to more as the two switches stand now: the pair would have one of them turned, or not. */
export function turnWanted(sheet: KitSheet, pair: Pair): boolean | null {
  const taken = lastTaken(pair);
  return taken && fullerTurned(sheet, pair, taken);
}

/** "by 7.5 dB", nothing where the reading doesn't say */
export const byDb = ({ fullerDb }: Taken): string => (fullerDb === null ? '' : ` by ${dbText(fullerDb)}`);

/** " (177–354 Hz)" */
export const inBand = ({ fullerLowHz, fullerHighHz }: Taken): string =>
  fullerLowHz === null || fullerHighHz === null ? '' : ` (${bandText(fullerLowHz, fullerHighHz)})`;

/** B's polarity that sums to more, as the switches stand now: "as is, 3.5 dB, 177–354 Hz" */
export function fullerText(sheet: KitSheet, pair: Pair, taken: Taken): string {
  const { fuller, fullerDb, fullerLowHz, fullerHighHz } = taken;
  if (fuller === null) return NO_VALUE;
  const band = fullerLowHz === null || fullerHighHz === null ? [] : [bandText(fullerLowHz, fullerHighHz)];
  if (fuller === 'either') return ['either alike', ...band].join(', ');
  const by = fullerDb === null ? [] : [dbText(fullerDb)];
  return [turnWanted(sheet, pair) ? 'inverted' : 'as is', ...by, ...band].join(', ');
}

/** "B inverted, moved 2.5 cm closer": what was done at the microphones. Empty: nothing. */
export function changesText({ inverted, movedCm }: Done): string {
  const parts = [];
  if (inverted) parts.push(`${whichText(inverted)} inverted`);
  if (movedCm) {
    // as it was written down
    const by = `${atMost(Math.abs(movedCm), 1)} cm ${movedCm > 0 ? 'closer' : 'away'}`;
    parts.push(`${inverted === 'b' ? '' : 'B '}moved ${by}`);
  }
  return parts.join(', ');
}

/** Everything that was written down of it, in short. */
export function doneText(done: Done | null): string {
  if (!done) return NO_VALUE;
  const parts = [];
  const changes = changesText(done);
  if (changes) parts.push(changes);
  if (done.delayLaterMs) parts.push(`mix: ${done.delayLaterMs > 0 ? 'B' : 'A'} ${msText(done.delayLaterMs)} later`);
  if (done.leftOnPurpose) parts.push('left on purpose');
  if (done.note.trim()) parts.push(`“${done.note.trim()}”`);
  return parts.length === 0 ? 'nothing' : parts.join('; ');
}

/** "2.95 ms (142 samples)" */
export const laterText = (ms: number, sampleRate: number): string =>
  `${msText(ms)} (${samplesText(wholeSamples(ms, sampleRate))})`;

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
