/** The whole kit in a few plain sentences: what to invert, what to delay, what it gains, who pays, what isn't known. */
import { counted } from '../../text/count';
import { gainText } from '../../text/level';
import { listText } from '../../text/sentence';
import { plainLine, type SumLine } from '../../text/sum';
import { type KitSheet, lastTaken, type Pair } from '../document/model';
import type { KitChoice, PairInKit } from '../kit/kitChoice';
import { isPresent, sameAction } from '../pair/pairPlan';
import { delayAtRateText } from '../pair/planWords';
import { sumIdOf } from '../sums/sumPlace';
import { printedName } from './printedNames';

/** of each kind: more are told further down */
const MOST = 3;
/** Below that nothing is gained or lost, dB. */
const NOTHING_DB = 0.5;

/** @param choice null: it wasn't worked out */
export const allTogether = (sheet: KitSheet, choice: KitChoice | null): string[] =>
  allTogetherLines(sheet, choice).map(({ text }) => text);

/** The same, with the names of its numbers. */
export function allTogetherLines(sheet: KitSheet, choice: KitChoice | null): SumLine[] {
  const name = (id: string): string => printedName(sheet, id);
  const two = ({ a, b }: Pair): string => `${name(a)} and ${name(b)}`;
  return [
    ...(choice ? toDo(sheet, choice, name) : []),
    ...(choice ? results(sheet, choice, two) : []),
    ...unknown(sheet, two).map(plainLine),
  ];
}

type NameOf = (id: string) => string;

function toDo(sheet: KitSheet, { invert, delays, pairs }: KitChoice, name: NameOf): SumLine[] {
  if (pairs.length === 0) return [plainLine('No pair is accepted yet.')];
  const by = new Map<string, string[]>();
  for (const { microphone, delayMs } of delays) {
    const text = delayAtRateText(delayMs, sheet.sampleRate);
    by.set(text, [...(by.get(text) ?? []), microphone]);
  }
  if (invert.length === 0 && by.size === 0) return [plainLine('Leave all polarity switches and delays as they are.')];
  return [
    plainLine(invert.length > 0 ? `Invert ${listText(invert.map(name))}.` : 'Leave all polarity switches as they are.'),
    ...[...by].map(([text, who]) => ({
      text: `Delay ${listText(who.map(name))} by ${text}.`,
      sums: who.map((of) => ({ name: name(of), id: sumIdOf({ kind: 'mic', of, number: 'mix-delay' }) })),
    })),
  ];
}

function results(sheet: KitSheet, { pairs }: KitChoice, two: (pair: Pair) => string): SumLine[] {
  const of = (id: string): Pair => sheet.pairs.find((one) => one.id === id) as Pair;
  const gains = pairs.filter(
    ({ gets }) => !isPresent(gets) && Math.max(gets.lowDb ?? 0, gets.allDb ?? 0) >= NOTHING_DB,
  );
  const pays = pairs.filter((one) => !sameAction(one.own, one.gets) && lossDb(one) >= NOTHING_DB);
  const line = (one: PairInKit, said: string): SumLine => {
    const name = two(of(one.pair));
    const number = one.gets.lowDb === null ? 'overall' : 'low-octave';
    return { text: `${name} ${said}.`, sums: [{ name, id: sumIdOf({ kind: 'pair', of: one.pair, number }) }] };
  };
  return [
    ...gains.slice(0, MOST).map((one) => line(one, `gain ${gainsShort(one)}`)),
    ...more(gains.length, 'gain too'),
    ...pays
      .slice(0, MOST)
      .map((one) => line(one, `get ${bestText(one.gets)} instead of ${bestText(one.own)}: other pairs need it so`)),
    ...more(pays.length, 'get less too'),
  ];
}

const more = (count: number, what: string): SumLine[] =>
  count > MOST ? [plainLine(`${counted(count - MOST, 'more pair')} ${what}; see the list of pairs.`)] : [];

type Gets = PairInKit['gets'];

/** What it loses against its own plan, dB, where that is known. */
function lossDb({ own, gets }: PairInKit): number {
  const steps = [
    own.lowDb === null || gets.lowDb === null ? 0 : own.lowDb - gets.lowDb,
    own.allDb === null || gets.allDb === null ? 0 : own.allDb - gets.allDb,
  ];
  return Math.max(...steps);
}

/** "+6.5 dB in the low octave, +5.5 dB overall" */
function gainsShort({ gets: { lowDb, allDb } }: PairInKit): string {
  const low = lowDb === null ? [] : [`${gainText(lowDb)} in the low octave`];
  const all = allDb === null ? [] : [`${gainText(allDb)} overall`];
  return [...low, ...all].join(', ');
}

const bestText = ({ lowDb, allDb }: Gets): string =>
  lowDb !== null
    ? `${gainText(lowDb)} in the low octave`
    : allDb !== null
      ? `${gainText(allDb)} overall`
      : 'an unknown gain';

function unknown({ pairs }: KitSheet, two: (pair: Pair) => string): string[] {
  const unsure = pairs.filter((pair) => lastTaken(pair)?.sure === false);
  const unread = pairs.filter((pair) => lastTaken(pair) === null).length;
  const waiting = pairs.filter((pair) => lastTaken(pair) !== null && pair.acceptedAt === null).length;
  return [
    ...unsure.slice(0, MOST).map((pair) => `${two(pair)}: the reading is uncertain.`),
    ...(unsure.length > MOST ? [`${counted(unsure.length - MOST, 'more reading')} uncertain.`] : []),
    ...(waiting > 0 ? [`${counted(waiting, 'pair')} measured, not accepted.`] : []),
    ...(unread > 0 ? [`${counted(unread, 'pair')} not measured yet.`] : []),
  ];
}
