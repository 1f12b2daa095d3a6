/** The hand-over's pictures: the sums of pairs that changed, and what each shows in words. */
import { sumDbFromCoherency } from '../../reading/acoustics';
import { bandText, hzText } from '../../text/frequency';
import { dbText, wholeDbText } from '../../text/level';
import { sheetDrumName } from '../../text/names';
import { type KitSheet, type Pair, SUM_PICTURE_HZ, type Taken } from '../document/model';
import { isSameBand } from '../pair/lowOctave';
import { recheck } from '../pair/recheck';
import { changesText } from './handOverChanges';
import { printedName, printedPair } from './printedNames';

/** A+B before and after what was done, dB re one microphone alone, at SUM_PICTURE_HZ. */
export interface SumPicture {
  pair: string;
  title: string;
  before: readonly (number | null)[];
  after: readonly (number | null)[];
  /** what was done, and what the two lines show */
  text: string[];
}

/** Pairs whose sum was drawn before and after, and that changed in between. */
export function sumPictures(sheet: KitSheet): SumPicture[] {
  return sheet.pairs.flatMap((pair) => {
    const { before, after } = pair;
    if (!before?.sumDb || !after?.sumDb || !changed(pair, before, after)) return [];
    return [
      {
        pair: pair.id,
        title: `${printedPair(sheet, pair)} (${sheetDrumName(pair.drum)})`,
        before: before.sumDb,
        after: after.sumDb,
        text: pictureText(sheet, pair, before, after),
      },
    ];
  });
}

function changed({ done }: Pair, before: Taken, after: Taken): boolean {
  const switched = (before.aInverted !== after.aInverted) !== (before.bInverted !== after.bInverted);
  const turned = before.sure && after.sure && before.polarity !== after.polarity;
  // delays scatter from reading to reading: only what a second look would call a move is one
  return switched || turned || Boolean(done?.movedCm) || recheck(before, after).change === 'moved';
}

function pictureText(sheet: KitSheet, pair: Pair, before: Taken, after: Taken): string[] {
  const text = [];
  const { done } = pair;
  const changes = changesText(sheet, pair);
  if (changes) text.push(`${changes}.`);
  if (before.aInverted !== after.aInverted && !done?.inverted)
    text.push(`${printedName(sheet, pair.a)} inverted between the two.`);
  if (before.bInverted !== after.bInverted && !done?.inverted)
    text.push(`${printedName(sheet, pair.b)} inverted between the two.`);
  const band = bandChange(before, after);
  if (band) text.push(band);
  const [then, now] = [deepest(before), deepest(after)];
  if (then && now) text.push(`Deepest dip ${then} before, ${now} after.`);
  if (!before.sure && !after.sure) text.push('Both readings were uncertain.');
  else if (!before.sure) text.push('The reading before was uncertain.');
  else if (!after.sure) text.push('The reading after was uncertain.');
  return text;
}

/** less is no change, dB */
const LEAST_STEP_DB = 0.5;

/** How A+B changed in the drum's low octave: by the same coherencies as what is fuller, so that no two figures stand for one thing. */
function bandChange(before: Taken, after: Taken): string | null {
  const { fullerLowHz: low, fullerHighHz: high } = after;
  if (low === null || high === null || before.fullerLowHz === null) return null;
  if (!isSameBand(before.fullerLowHz, low) || before.lowCoherency === null || after.lowCoherency === null) return null;
  const step = sumDbFromCoherency(after.lowCoherency) - sumDbFromCoherency(before.lowCoherency);
  const where = `The drum’s low octave (${bandText(low, high)}): `;
  if (Math.abs(step) < LEAST_STEP_DB) return `${where}as full as before.`;
  return `${where}${dbText(step)} ${step > 0 ? 'fuller' : 'thinner'}.`;
}

/** "−14 dB at 200 Hz" */
function deepest({ sumDb }: Taken): string | null {
  let at = -1;
  for (const [i, db] of (sumDb ?? []).entries()) if (db !== null && (at < 0 || db < (sumDb?.[at] as number))) at = i;
  if (at < 0) return null;
  return `${wholeDbText(sumDb?.[at] as number)} at ${hzText(Number((SUM_PICTURE_HZ[at] as number).toPrecision(2)))}`;
}
