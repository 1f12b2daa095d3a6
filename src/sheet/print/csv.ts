/**
 * The sheet for a spreadsheet: comma-separated values as RFC 4180 has them (quoted where needed, lines end with CR LF),
 * one table, a row for each pair. Numbers are numbers; text that a spreadsheet could run is made text (spreadsheetText.ts).
 */
import { kindWords } from '../../advice/words/pairKindWords';
import { wholeSamples } from '../../text/count';
import { whichText } from '../../text/names';
import { type KitSheet, lastTaken, type Microphone, microphoneOf, type Pair } from '../document/model';
import type { KitChoice } from '../kit/kitChoice';
import { kitSystem } from '../kit/kitSystem';
import { inKit, leftOf, leftText } from '../kit/pairLine';
import { isSameBand } from '../pair/lowOctave';
import { sameAction } from '../pair/pairPlan';
import { actionText, byItself } from '../pair/planWords';
import { agreeingHits } from '../pair/taken';
import { csvOf, rounded, type Value } from './csvCells';
import { printedName } from './printedNames';
import { notRun } from './spreadsheetText';

const COLUMNS = [
  'drum',
  'pair kind',
  'A',
  'A input',
  'A polarity switch',
  'B',
  'B input',
  'B polarity switch',
  'measured at',
  'measured from',
  'initials',
  'temperature °C',
  'certain',
  'polarity',
  'delay of B ms',
  'delay of B samples (at the reading’s rate)',
  'sample rate of the reading Hz',
  'accuracy ± ms (90 %)',
  'hit-to-hit spread ms',
  'hits that agree',
  'hits counted',
  'hits heard',
  'fuller polarity',
  'fuller by dB (than the other polarity)',
  'the drum’s low octave Hz',
  'polarity before',
  'delay of B before ms',
  'inverted (A, B or both)',
  'B moved closer cm',
  'left on purpose',
  'gained by what was done: low octave dB (A and B at equal level)',
  'gained by what was done: overall dB (A and B at equal level)',
  'plan status',
  'in the mix: invert A',
  'in the mix: invert B',
  'in the mix: delay ms (positive: delay A, negative: delay B)',
  'in the mix: delay samples at the session’s rate (positive: delay A, negative: delay B)',
  'sample rate of the session Hz',
  'B to move closer cm',
  'gain in the drum’s low octave dB (against leaving it, A and B at equal level)',
  'gain overall dB (against leaving it, A and B at equal level)',
  'the plan in words',
  'plan for this pair alone',
  'note',
  'accepted at',
  'recheck at',
  'recheck found',
  'recheck: B further by cm',
  'track of A',
  'track of B',
] as const;

/**
 * What is to be done is as the whole kit has it; of a pair that wasn't accepted, as it would be by itself.
 * @returns the table with its head, in UTF-8 with a byte order mark, which spreadsheets ask for
 */
export function sheetCsv(sheet: KitSheet): string {
  const choice = kitSystem(sheet).choice;
  const rows = [COLUMNS, ...sheet.pairs.map((pair) => rowOf(sheet, choice, pair))];
  return csvOf(rows);
}

function rowOf(sheet: KitSheet, choice: KitChoice | null, pair: Pair): Value[] {
  const a = microphoneOf(sheet, pair.a);
  const b = microphoneOf(sheet, pair.b);
  const taken = lastTaken(pair);
  const { done } = pair;
  const hits = taken?.sure ? agreeingHits(taken) : null;
  const ms = (value: number | null | undefined): number | null => (value == null ? null : rounded(value, 4));
  return [
    pair.drum,
    kindWords(pair.kind).title,
    ...microphone(a),
    ...microphone(b),
    taken?.takenAt ?? null,
    taken?.source ?? null,
    taken?.initials ?? null,
    taken?.temperatureC ?? null,
    taken ? taken.sure : null,
    taken?.polarity ?? null,
    ms(taken?.delayMs),
    taken?.delayMs == null ? null : rounded((taken.delayMs / 1000) * taken.sampleRate, 1),
    taken?.sampleRate ?? null,
    ms(taken?.uncertaintyMs),
    ms(taken?.spreadMs),
    hits?.agree ?? null,
    hits?.of ?? null,
    taken?.hits ?? null,
    taken?.fuller ?? null,
    taken?.fullerDb == null ? null : rounded(taken.fullerDb, 1),
    taken?.fullerLowHz == null || taken.fullerHighHz === null
      ? null
      : `${Math.round(taken.fullerLowHz)}–${Math.round(taken.fullerHighHz)}`,
    pair.after ? (pair.before?.polarity ?? null) : null,
    pair.after ? ms(pair.before?.delayMs) : null,
    done?.inverted ? whichText(done.inverted) : null,
    done?.movedCm ?? null,
    done ? done.leftOnPurpose : null,
    ...gainedCells(pair),
    ...planCells(sheet, choice, pair),
    done?.note ?? null,
    pair.acceptedAt,
    pair.checked?.checkedAt ?? null,
    pair.checked?.change ?? null,
    pair.checked?.fartherCm == null ? null : rounded(pair.checked.fartherCm, 1),
    taken?.files?.[0] ?? null,
    taken?.files?.[1] ?? null,
  ];
}

/** What A+B came to after what was done, less what it came to before, each as it was read. */
function gainedCells({ before, after }: Pair): Value[] {
  const [then, now] = [before?.timings[0]?.asIs, after?.timings[0]?.asIs];
  if (!before || !after || !then || !now) return [null, null];
  const step = (x: number | null, y: number | null): number | null =>
    x === null || y === null ? null : rounded(x - y, 1);
  const sameOctave =
    before.fullerLowHz !== null && after.fullerLowHz !== null && isSameBand(before.fullerLowHz, after.fullerLowHz);
  return [sameOctave ? step(now.lowDb, then.lowDb) : null, step(now.allDb, then.allDb)];
}

/**
 * The same as on the hand-over. The switches are the microphones' own: where both of a pair turn, its invertB is none.
 * Of a pair that wasn't accepted its plan by itself, called that.
 */
function planCells(sheet: KitSheet, choice: KitChoice | null, pair: Pair): Value[] {
  const nameOf = (id: string): string => notRun(printedName(sheet, id));
  const text = leftText(sheet, choice, pair, nameOf);
  const is = text === '' ? null : pair.acceptedAt === null ? 'not accepted' : 'accepted';
  const left = leftOf(sheet, choice, pair);
  if (left === null) return [is, null, null, null, null, sheet.sampleRate, null, null, null, { own: text }, null];
  const { action, inverted } = left;
  const own = inKit(choice, pair)?.own ?? action;
  const db = (gain: number | null): number | null => (gain === null ? null : rounded(gain, 1));
  return [
    is,
    inverted.includes(pair.a),
    inverted.includes(pair.b),
    rounded(action.delayMs ?? 0, 2),
    Math.sign(action.delayMs ?? 0) * wholeSamples(action.delayMs ?? 0, sheet.sampleRate),
    sheet.sampleRate,
    action.moveCm,
    db(action.lowDb),
    db(action.allDb),
    { own: text },
    sameAction(own, action)
      ? 'the same'
      : { own: actionText(sheet, pair, own, { inverted: byItself(sheet, pair, own), nameOf }) },
  ];
}

const microphone = (one: Microphone | undefined): Value[] =>
  one ? [one.label, one.input, one.inverted ? 'inverted' : 'normal'] : [null, null, null];
