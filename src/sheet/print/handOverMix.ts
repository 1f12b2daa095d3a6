/** The hand-over's part for the mix: what to invert, what to delay, and which pair pays for it. All of it belongs together. */
import { counted } from '../../text/count';
import { bandText } from '../../text/frequency';
import { gainText } from '../../text/level';
import { sheetDrumName } from '../../text/names';
import { capital, listText } from '../../text/sentence';
import type { SumLine } from '../../text/sum';
import { countedTaken, isInverted, type KitSheet, type Pair, type Taken } from '../document/model';
import type { DrumGroup } from '../kit/drumGroup';
import { AS_FULL_DB, groupGains, isDelayedApart } from '../kit/groupGains';
import type { Because } from '../kit/kitBecause';
import type { KitChoice, PairInKit } from '../kit/kitChoice';
import type { KitDelay } from '../kit/kitDelays';
import type { KitSystem } from '../kit/kitSystem';
import { sameAction } from '../pair/pairPlan';
import { actionText, byItself, delayText, gainsText } from '../pair/planWords';
import { GROUP_NUMBER, sumIdOf } from '../sums/sumPlace';
import { printedName, printedPair } from './printedNames';

/** Sentences to print. */
export interface InTheMix {
  /** how to take them: all together, by which pairs they go; may be empty */
  lead: string;
  invert: string[];
  delay: string[];
  /** pairs that get less than they would have by themselves */
  pays: string[];
  groups: string[];
}

export function inTheMix(sheet: KitSheet, system: KitSystem): InTheMix {
  const { choice } = system;
  return {
    lead: leadOf(sheet, choice),
    invert: inversions(sheet, choice),
    delay: delaySentences(sheet, choice.delays),
    pays: choice.pairs.flatMap((one) => payText(sheet, one) ?? []),
    groups: groupLines(system).map(({ text }) => text),
  };
}

/** Of several microphones on one drum, with the names of its numbers. */
export const groupLines = ({ groups, choice }: Pick<KitSystem, 'groups' | 'choice'>): SumLine[] =>
  groups.map((group) => {
    const text = groupSentence(group, choice);
    const known = groupGains(group, choice).length > 0;
    const id = sumIdOf({ kind: 'drum', of: group.drum, number: GROUP_NUMBER });
    return { text, sums: known ? [{ name: groupName(group), id }] : [] };
  });

const groupName = ({ drum, microphones }: DrumGroup): string =>
  `${capital(sheetDrumName(drum))}, ${microphones.length} together`;

function leadOf({ pairs: all }: KitSheet, { invert, delays, pairs }: KitChoice): string {
  const together = invert.length + delays.length > 1 ? ['Do all of these together.'] : [];
  const some = pairs.length > 0 && pairs.length < all.length;
  const by = some ? [`Goes by ${pairs.length} of ${counted(all.length, 'pair')}.`] : [];
  return [...together, ...by].join(' ');
}

const pairOf = (sheet: KitSheet, id: string): Pair => sheet.pairs.find((one) => one.id === id) as Pair;

function inversions(sheet: KitSheet, { invert, pairs }: KitChoice): string[] {
  if (pairs.length === 0) return ['No reading to go by.'];
  if (invert.length === 0) return ['Nothing to do: leave the polarity switches as they are.'];
  return invert.map((id) => {
    const stands = isInverted(sheet, id) ? ' (recorded inverted: invert it again)' : '';
    const others = pairs.flatMap(({ pair }) => {
      const { a, b } = pairOf(sheet, pair);
      return a === id ? [b] : b === id ? [a] : [];
    });
    const turned = others.filter((other) => !invert.includes(other));
    const along = others.filter((other) => invert.includes(other));
    const why = [
      ...(turned.length > 0 ? [`against ${names(sheet, turned)}`] : []),
      ...(along.length > 0 ? [`together with ${names(sheet, along)}`] : []),
    ];
    return `${printedName(sheet, id)}${stands}${why.length > 0 ? `: ${why.join(', ')}` : ''}.`;
  });
}

const names = (sheet: KitSheet, ids: readonly string[]): string =>
  listText([...new Set(ids)].map((id) => printedName(sheet, id)));

/** One sentence for all that are delayed by the same: who meets whom, and who only goes along. */
function delaySentences(sheet: KitSheet, delays: readonly KitDelay[]): string[] {
  const by = new Map<string, KitDelay[]>();
  for (const one of delays) {
    const text = delayText(one.delayMs, sheet.sampleRate);
    by.set(text, [...(by.get(text) ?? []), one]);
  }
  return [...by].map(([text, list]) => {
    const meeting = list.filter(({ pairs }) => pairs.length > 0);
    const along = list.filter(({ pairs }) => pairs.length === 0).map(({ microphone }) => microphone);
    const whom = meeting.flatMap(({ microphone, pairs }) =>
      pairs.map((id) => {
        const { a, b, drum } = pairOf(sheet, id);
        return `${printedName(sheet, a === microphone ? b : a)} on the ${sheetDrumName(drum)}`;
      }),
    );
    const delayed = names(
      sheet,
      (meeting.length > 0 ? meeting : list).map(({ microphone }) => microphone),
    );
    const meet = whom.length > 0 ? `, to line up with ${listText([...new Set(whom)])}` : '';
    const rest = meeting.length > 0 && along.length > 0 ? `; ${names(sheet, along)} by the same amount` : '';
    return `${delayed} by ${text}${meet}${rest}.`;
  });
}

/** Below that nobody pays anything, dB: it isn't told finer. */
const NOTHING_DB = 0.25;

/**
 * "Kick out → Overhead left (kick): ±0 dB in the drum’s low octave (44–88 Hz), ±0 dB overall, instead of +7.5 dB and +5 dB by the
 * plan for this pair alone (invert Overhead left), because …": all of it against leaving the pair as it is, as everywhere. Null: it has its own.
 */
function payText(sheet: KitSheet, { pair: id, own, gets, because }: PairInKit): string | null {
  if (sameAction(own, gets)) return null;
  const pair = pairOf(sheet, id);
  const taken = countedTaken(pair) as Taken;
  const nameOf = (microphone: string): string => printedName(sheet, microphone);
  const wanted = actionText(sheet, pair, own, { inverted: byItself(sheet, pair, own), nameOf });
  const start = `${printedPair(sheet, pair)} (${sheetDrumName(pair.drum)})`;
  const plan = `the plan for this pair alone (${wanted})`;
  const why = because === null ? '' : `, because ${becauseText(sheet, because)}`;
  const steps = [minus(gets.lowDb, own.lowDb), minus(gets.allDb, own.allDb)];
  if (steps.every((db) => db !== null && Math.abs(db) < NOTHING_DB)) return `${start}: as full as with ${plan}${why}.`;
  const [low, all] = [own.lowDb, own.allDb].map((db) => (db === null ? 'unknown' : gainText(db)));
  const instead = low === all ? low : `${low} and ${all}`;
  return `${start}: ${gainsText(gets, taken)}, instead of ${instead} with ${plan}${why}.`;
}

const minus = (x: number | null, y: number | null): number | null => (x === null || y === null ? null : x - y);

function becauseText(sheet: KitSheet, because: Because): string {
  if (because.code === 'follows')
    return `${printedName(sheet, because.microphone)} goes with the ${sheetDrumName(because.drum)}`;
  const other = printedPair(sheet, pairOf(sheet, because.pair));
  if (because.code === 'delay') return `${other} gets its delay first`;
  if (because.code === 'unknown') return `what ${other} would gain then is unknown`;
  if (because.code === 'loses')
    return because.left ? `${other} is left as it is on purpose` : `${other} would lose more by it`;
  const how = because.inverted ? 'is inverted' : 'stays as it is';
  const purpose = pairOf(sheet, because.pair).done?.leftOnPurpose ? ', left on purpose' : '';
  return `${printedName(sheet, because.microphone)} ${how} for ${other}${purpose}`;
}

function groupSentence(group: DrumGroup, choice: KitChoice): string {
  const { microphones, missing, lowHz, highHz, gainDb, choiceDb, differentHits } = group;
  const start = groupName(group);
  if (missing.length > 0) {
    const all = (microphones.length * (microphones.length - 1)) / 2;
    return `${start}: unknown; of its ${counted(all, 'pair')}, ${missing.length} ${missing.length === 1 ? 'has' : 'have'} no low octave measured.`;
  }
  if (gainDb === null || choiceDb === null || lowHz === null || highHz === null)
    return `${start}: unknown; they have no low octave in common.`;
  if (isDelayedApart(group, choice)) return `${start}: unknown with the delays above.`;
  const where = ` at ${bandText(lowHz, highHz)}${differentHits ? ' (pairs measured on different hits)' : ''}`;
  const turned = choice.invert.some((id) => microphones.includes(id));
  const now = turned ? `${gainText(choiceDb)}${where} with the switches above` : `as they are now${where}`;
  const left = gainDb - choiceDb;
  const most =
    left < AS_FULL_DB
      ? ', the best that polarity can do'
      : `; other switch settings could give ${gainText(left)} more there`;
  return `${start}: ${now}${most}.`;
}
