/** The hand-over's part for the mix: what to invert, what to nudge, what was left on purpose, what can't be had. */
import { samplesText, wholeSamples } from '../../text/count';
import { bandText } from '../../text/frequency';
import { dbText } from '../../text/level';
import { sheetDrumName } from '../../text/names';
import { capital, listText } from '../../text/sentence';
import { msText } from '../../text/time';
import { type KitSheet, lastTaken, type Pair, type Taken } from '../document/model';
import type { KitSystem } from '../kit/kitSystem';
import type { SwitchWishes } from '../kit/switchWishes';
import { fullerTurned } from '../pair/asItStands';
import { printedName, printedPair } from './printedNames';

/** Sentences to print. */
export interface InTheMix {
  invert: string[];
  nudge: string[];
  left: string[];
  wishes: string[];
  groups: string[];
}

export function inTheMix(sheet: KitSheet, system: KitSystem | null): InTheMix {
  return {
    invert: system?.switches ? inversions(sheet, system.switches) : ['Not worked out.'],
    nudge: withCompany(nudges(sheet)),
    left: sheet.pairs.flatMap((pair) =>
      pair.done?.leftOnPurpose
        ? [
            `${printedPair(sheet, pair)} (${sheetDrumName(pair.drum)})${pair.done.note.trim() ? `: “${pair.done.note.trim()}”` : ''}`,
          ]
        : [],
    ),
    wishes: system?.switches ? wishesNotMet(sheet, system.switches) : [],
    groups: system ? groupSentences(sheet, system) : [],
  };
}

/** One that is nudged alone leaves what it was aligned with. */
const withCompany = (list: string[]): string[] =>
  list.length === 0 ? [] : [...list, 'What was aligned with a nudged one has to go along by the same.'];

/** Which polarity sums to more as the two switches stand now: the pair would have one of them turned, or not. */
function turnWanted(sheet: KitSheet, pair: Pair): boolean | null {
  const taken = lastTaken(pair);
  return taken && fullerTurned(sheet, pair, taken);
}

/** The reading says which polarity is fuller, and it was asked: nothing was left on purpose. */
const asks = (sheet: KitSheet, pair: Pair): boolean =>
  pair.acceptedAt !== null && turnWanted(sheet, pair) !== null && !pair.done?.leftOnPurpose;

/** "by 7.5 dB", nothing where the reading doesn't say */
const byDb = ({ fullerDb }: Taken): string => (fullerDb === null ? '' : ` by ${dbText(fullerDb)}`);

/** " (177–354 Hz)" */
const inBand = ({ fullerLowHz, fullerHighHz }: Taken): string =>
  fullerLowHz === null || fullerHighHz === null ? '' : ` (${bandText(fullerLowHz, fullerHighHz)})`;

const notSure = (pair: Pair): string => (lastTaken(pair)?.sure ? '' : ', not sure');

function inversions(sheet: KitSheet, { change, unmet, ignored }: SwitchWishes): string[] {
  if (!sheet.pairs.some((pair) => asks(sheet, pair))) return ['No reading says which polarity is fuller.'];
  if (change.length === 0)
    return [
      unmet.length > 0
        ? 'Nothing: as the switches stand, the most that can be had together is met.'
        : 'Nothing: no reading that counts asks for another polarity as the switches stand.',
    ];
  const counted = sheet.pairs.filter(
    (pair) => asks(sheet, pair) && !unmet.includes(pair.id) && !ignored.includes(pair.id),
  );
  return change.map((id) => {
    const own = counted.filter(({ a, b }) => a === id || b === id);
    const reasons = own.map((pair) => {
      const other = printedName(sheet, pair.a === id ? pair.b : pair.a);
      const taken = lastTaken(pair) as Taken;
      // both are turned where the pair is fuller as the two stand to each other
      const both = turnWanted(sheet, pair) ? '' : ', turned as well,';
      return `fuller with ${other}${both}${byDb(taken)}${inBand(taken)}${notSure(pair)}`;
    });
    // nothing asks for it but what was left as it is with another that turns
    const held = sheet.pairs.filter(
      ({ a, b, done, acceptedAt }) =>
        acceptedAt !== null && done?.leftOnPurpose && (a === id || b === id) && change.includes(a === id ? b : a),
    );
    reasons.push(
      ...held.map(
        ({ a, b }) => `so that it stays as it is with ${printedName(sheet, a === id ? b : a)}, left on purpose`,
      ),
    );
    const inverted = sheet.microphones.find((one) => one.id === id)?.inverted;
    const stands = inverted ? ' (its switch stands at inverted)' : '';
    return `${printedName(sheet, id)}${stands}${reasons.length > 0 ? `: ${reasons.join('; ')}` : ''}.`;
  });
}

function nudges(sheet: KitSheet): string[] {
  return sheet.pairs.flatMap((pair) => {
    const { done } = pair;
    if (!done?.delayLaterMs) return [];
    const [late, early] = done.delayLaterMs > 0 ? [pair.b, pair.a] : [pair.a, pair.b];
    const moved = done.movedCm ? '; B was moved as well' : '';
    return [
      `${printedName(sheet, late)} later by ${nudgeText(done.delayLaterMs, sheet.sampleRate)}, to meet ${printedName(sheet, early)} on the ${sheetDrumName(pair.drum)}${moved}.`,
    ];
  });
}

/** "2.95 ms (142 samples)" */
const nudgeText = (ms: number, sampleRate: number): string =>
  `${msText(ms)} (${samplesText(wholeSamples(ms, sampleRate))})`;

function wishesNotMet(sheet: KitSheet, { change, unmet, ignored }: SwitchWishes): string[] {
  const of = (id: string): Pair => sheet.pairs.find((one) => one.id === id) as Pair;
  const wish = (pair: Pair): string => {
    const how = turnWanted(sheet, pair) ? 'with one inverted' : 'as they stand now';
    const taken = lastTaken(pair) as Taken;
    return `${printedPair(sheet, pair)} (${sheetDrumName(pair.drum)}) ${how}${byDb(taken)}${inBand(taken)}${notSure(pair)}`;
  };
  const met = (pair: Pair): boolean =>
    (change.includes(pair.a) !== change.includes(pair.b)) === turnWanted(sheet, pair);
  // one sentence for all that weren't asked for the same drum's sake
  const deciders = new Set(ignored.map((id) => deciderOf(sheet, of(id)).drum));
  return [
    ...unmet.map((id) => `Can’t be had together with the others: ${wish(of(id))}.`),
    ...[...deciders].map((decider) => {
      const pairs = ignored.map(of).filter((pair) => deciderOf(sheet, pair).drum === decider);
      const names = [...new Set(pairs.map((pair) => printedName(sheet, deciderOf(sheet, pair).microphone)))];
      const wishes = pairs.map((pair) => `${wish(pair)}, ${met(pair) ? 'met all the same' : 'not met'}`);
      const verb = names.length === 1 ? 'follows' : 'follow';
      return `Not asked, as ${listText(names)} ${verb} the ${sheetDrumName(decider)}: ${wishes.join('; ')}.`;
    }),
  ];
}

/** The microphone of the pair that follows another drum, and which. */
function deciderOf(sheet: KitSheet, pair: Pair): KitSheet['follows'][number] {
  return sheet.follows.find(
    ({ microphone, drum }) => (microphone === pair.a || microphone === pair.b) && drum !== pair.drum,
  ) as KitSheet['follows'][number];
}

function groupSentences(sheet: KitSheet, { groups, switches }: KitSystem): string[] {
  const names = (ids: readonly string[]): string => listText(ids.map((id) => printedName(sheet, id)));
  return groups.map(({ drum, microphones, missing, lowHz, highHz, turn, gainDb, differentHits }) => {
    const start = `${capital(sheetDrumName(drum))}, ${microphones.length} together`;
    if (missing.length > 0) {
      const all = (microphones.length * (microphones.length - 1)) / 2;
      return `${start}: not known; of its ${all} pairs ${missing.length} ${missing.length === 1 ? 'has' : 'have'} no low band read.`;
    }
    if (turn === null || gainDb === null || lowHz === null || highHz === null)
      return `${start}: not known; no low band is common to all of them.`;
    const band = bandText(lowHz, highHz);
    const own = (switches?.change ?? []).filter((id) => microphones.includes(id));
    const rest = microphones.filter((id) => !turn.includes(id));
    // turning all the others comes to the same
    const agreed = alike(own, turn) || alike(own, rest) || !sheet.pairs.some((pair) => asks(sheet, pair));
    const more = `${band}${differentHits ? ' (different hits)' : ''}${agreed ? '' : '; by all pairs, as under Invert, it is otherwise'}`;
    if (turn.length === 0) return `${start}: fullest as they stand, ${more}.`;
    return `${start}: ${names(turn)} turned gives ${dbText(gainDb)} more, ${more}.`;
  });
}

const alike = (p: readonly string[], q: readonly string[]): boolean =>
  p.length === q.length && p.every((id) => q.includes(id));
