/** What a pair's line says on the drawing: how sure it is, polarity and distance, what is left to do; a few words each. */
import { cmText } from '../../text/length';
import { msText } from '../../text/time';
import { type KitSheet, lastTaken, type Pair, type Taken } from '../document/model';
import type { KitChoice } from '../kit/kitChoice';
import { leftOf } from '../kit/pairLine';
import { polarityNow } from '../pair/asItStands';
import { isPresent } from '../pair/pairPlan';
import { pathSaidOf } from '../pair/taken';

/** solid: certain · dashed: uncertain · dotted: not measured */
export type LineLook = 'solid' | 'dashed' | 'dotted';
/** as a shape before the second line: ▸ · ✓ · ? */
export type Left = 'todo' | 'done' | 'ask';

export interface PairMark {
  pair: string;
  look: LineLook;
  /** polarity and distance: "inverted, 2 cm"; empty: it wasn't read */
  found: string;
  /** "invert, delay 2.76 ms"; empty: nothing is known of it */
  left: string;
  state: Left;
  /** to be done next */
  next: boolean;
}

/**
 * @param choice what the whole kit gets; null: not worked out
 * @param next id of the pair to do next; null: none
 */
export function pairMark(sheet: KitSheet, choice: KitChoice | null, pair: Pair, next: string | null): PairMark {
  const taken = lastTaken(pair);
  const isNext = pair.id === next;
  if (taken === null)
    return { pair: pair.id, look: 'dotted', found: '', left: isNext ? 'measure next' : '', state: 'ask', next: isNext };
  const look = taken.sure ? 'solid' : 'dashed';
  return {
    pair: pair.id,
    look,
    found: foundText(sheet, pair, taken),
    ...leftShort(sheet, choice, pair, taken),
    next: isNext,
  };
}

/** "same, 35 cm"; "same"; "uncertain" */
function foundText(sheet: KitSheet, pair: Pair, taken: Taken): string {
  const polarity = polarityNow(sheet, pair, taken);
  if (!taken.sure || polarity === null) return 'uncertain';
  const cm = pathSaidOf(taken);
  return cm === null ? polarity : `${polarity}, ${cmText(cm)}`;
}

function leftShort(
  sheet: KitSheet,
  choice: KitChoice | null,
  pair: Pair,
  taken: Taken,
): Pick<PairMark, 'left' | 'state'> {
  if (pair.done?.leftOnPurpose) return { left: 'left as it is', state: 'done' };
  const found = leftOf(sheet, choice, pair);
  if (found === null) return { left: taken.sure ? 'no advice' : 'measure again', state: 'ask' };
  const { action, inverted } = found;
  const steps = [
    ...(inverted.length === 1 ? ['invert'] : inverted.length === 2 ? ['invert both'] : []),
    ...(action.delayMs === null ? [] : [`delay ${msText(action.delayMs)}`]),
    ...(action.moveCm === null ? [] : [`move ${cmText(action.moveCm)}`]),
  ];
  if (steps.length > 0 || !isPresent(action)) return { left: steps.join(', ') || 'invert', state: 'todo' };
  if (pair.acceptedAt === null) return { left: 'to accept', state: 'todo' };
  return { left: 'nothing to do', state: taken.sure ? 'done' : 'ask' };
}

/** The more a mark tells of what is to be done, the earlier it gets its place. */
export function rankOf({ next, state, look }: PairMark): number {
  if (next) return 0;
  if (look === 'dotted') return 4;
  return state === 'todo' ? 1 : look === 'dashed' ? 2 : 3;
}

/** What is to be done with each microphone in the mix, by id: "invert, delay 2.76 ms"; else that its switch is inverted. */
export function micNotes(sheet: KitSheet, choice: KitChoice | null): Map<string, string> {
  return new Map(
    sheet.microphones.flatMap(({ id, inverted }): [string, string][] => {
      const delay = choice?.delays.find(({ microphone }) => microphone === id);
      const steps = [
        ...(choice?.invert.includes(id) ? ['invert'] : []),
        ...(delay ? [`delay ${msText(delay.delayMs)}`] : []),
      ];
      const text = steps.length > 0 ? steps.join(', ') : inverted ? 'switch inverted' : '';
      return text === '' ? [] : [[id, text]];
    }),
  );
}
