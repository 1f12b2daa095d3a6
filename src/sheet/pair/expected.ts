/** What was to be expected of a pair beside what was measured, and how that goes together with the plan. */
import { type Action, LEAST_GAIN_DB } from '../../advice/plan/alternatives';
import { type PairKindId, pairKind } from '../../advice/plan/pairKinds';
import { checkFirstText } from '../../advice/words/usualWords';
import { opposite } from '../../reading/polarity';
import type { Polarity } from '../../reading/reading';
import { labelOf } from '../document/labels';
import type { KitSheet, Pair, Taken } from '../document/model';
import { sameAction } from './pairPlan';
import { actionText, byItself } from './planWords';

export interface Expected {
  /** as the two polarity switches stood at the reading; null: either may come out */
  polarity: Polarity | null;
  /**
   * met · other: the polarity isn't the usual one · low-octave: first push and low octave don't belong together ·
   * open: nothing is usual, or the reading is uncertain
   */
  verdict: 'met' | 'other' | 'low-octave' | 'open';
  /** "Expected inverted, measured inverted.", and how the plan goes with it */
  text: string;
}

/** The low octave contradicts the arrival only if it is clear by so much, dB … */
const CLEAR_DB = 3;
/** … and if the delay turns the octave's middle by less than this, so that delay alone can't explain it: an eighth of a turn */
const LEAST_TURN = 1 / 8;

/** What is usual of such a pair. @param turned one of its two switches is inverted. @returns null: either may come out */
export function usualPolarity(kind: PairKindId, turned: boolean): Polarity | null {
  const usual = pairKind(kind).expectedPolarity;
  if (usual === 'either') return null;
  return turned ? opposite(usual) : usual;
}

/**
 * What is usual as wired (src/advice/plan/pairKinds.ts), and how the two switches turn it. That is about the wiring; what to do
 * goes by the plan, and the text never says anything else.
 * @param plan as the switches stood at the reading; null: none, or another one came of it, and nothing is said of it
 */
export function expectedOf(sheet: KitSheet, pair: Pair, taken: Taken, plan = taken.plan): Expected {
  const turned = taken.aInverted !== taken.bInverted;
  const polarity = usualPolarity(pair.kind, turned);
  const read = taken.sure ? taken.polarity : null;
  const expectation = polarity ? `Expected ${polarity}` : 'Either polarity may come out';
  const switched = turned ? `, with ${labelOf(sheet, taken.aInverted ? pair.a : pair.b)} inverted` : '';
  if (read === null) return { polarity, verdict: 'open', text: `${expectation}${switched}; the reading is uncertain.` };
  const said = `${expectation}, measured ${read}${switched}.`;
  const then = planText(sheet, pair, plan);
  if (lowOctaveContradicts(taken, read)) {
    const check =
      'Stop the drummer and compare the two mics’ low-cut and contour switches first: the drum’s low octave and the first push disagree';
    return { polarity, verdict: 'low-octave', text: `${said} ${check}${then && `; if the switches match, ${then}`}.` };
  }
  if (polarity === null) return { polarity, verdict: 'open', text: said };
  if (polarity === read) {
    const plain = plan === null || (read === 'same' && byItself(sheet, pair, plan).length === 0);
    const text = plain
      ? `Measured ${read}${switched}, as expected.`
      : `${said} ${usualText(sheet, pair, taken, plan, read)}`;
    return { polarity, verdict: 'met', text };
  }
  const asWired = turned ? opposite(polarity) : polarity;
  return { polarity, verdict: 'other', text: `${said} ${checkFirstText(asWired, then)}` };
}

/** "invert Snare bottom", "leave both as they are"; empty: nothing is recommended */
function planText(sheet: KitSheet, pair: Pair, plan: Action | null): string {
  if (plan === null) return '';
  const nameOf = (id: string): string => labelOf(sheet, id);
  return actionText(sheet, pair, plan, { inverted: byItself(sheet, pair, plan), nameOf });
}

/** As it usually is: why the plan inverts one all the same, or why it doesn't. Fuller only where that is known. */
function usualText(sheet: KitSheet, pair: Pair, taken: Taken, plan: Action, read: Polarity): string {
  const fuller = isFuller(taken, plan);
  const [one] = byItself(sheet, pair, plan);
  if (one === undefined)
    return fuller
      ? 'As usual, and fuller with both polarities left as they are.'
      : 'As usual; the plan leaves both polarities as they are.';
  const name = labelOf(sheet, one);
  if (read === 'inverted') return `${name} hears the hit the other way round, as usual, so the plan inverts it.`;
  return fuller
    ? `As usual at the first push; over the whole hit the two are fuller with ${name} inverted.`
    : `The first push is as usual; the plan inverts ${name}.`;
}

/** With the plan's polarity than with the other one, everything else alike: by LEAST_GAIN_DB in the low octave and overall. */
function isFuller({ timings }: Taken, plan: Action): boolean {
  const there = timings.find((one) => sameAction({ ...one, invertB: plan.invertB }, plan));
  if (there === undefined) return false;
  const [own, other] = plan.invertB ? [there.inverted, there.asIs] : [there.asIs, there.inverted];
  const gains = (x: number | null, y: number | null): boolean => x !== null && y !== null && x - y >= LEAST_GAIN_DB;
  return gains(own.lowDb, other.lowDb) && gains(own.allDb, other.allDb);
}

/** Fuller the other way round than first push and delay alone would make it. */
function lowOctaveContradicts(
  { fuller, fullerDb, fullerLowHz, fullerHighHz, delayMs }: Taken,
  read: Polarity,
): boolean {
  if (fuller === null || fuller === 'either' || fullerDb === null || Math.abs(fullerDb) < CLEAR_DB) return false;
  if (fullerLowHz === null || fullerHighHz === null || delayMs === null) return false;
  const turn = (Math.abs(delayMs) / 1000) * Math.sqrt(fullerLowHz * fullerHighHz);
  return turn < LEAST_TURN && (fuller === 'as-is') !== (read === 'same');
}
