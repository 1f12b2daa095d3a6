/** Which polarity switches the kit would have changed, for the fullest low octaves. */
import { countedTaken, type KitSheet, type Pair, type Taken } from '../document/model';
import { planSwitches, type SwitchPlan, type Wish } from '../network/switches';
import { TooManyTogether } from '../network/tooManyTogether';
import { fullerTurned, switchesDiffer } from '../pair/asItStands';

export interface SwitchWishes {
  /** ids of microphones whose switch to change */
  change: string[];
  /** ids of pairs whose wish can't be met together with the others */
  unmet: string[];
  /** ids of pairs whose wish wasn't asked: a microphone of theirs follows another drum */
  ignored: string[];
}

/** A wish counts for at least so much, dB: one of 0 would be none. */
const LEAST_WISH_DB = 0.1;
/** What was left on purpose stays as it was when it was accepted: as good a result as any, and dearer than any wish, dB. */
const HELD_WISH_DB = 1000;

/**
 * What each pair wishes for: that the two come out fuller in the drum's own low band, where the meter could say so.
 * Louder wishes count more: by how many dB. Null: readings of all drums hold together more microphones than can be tried.
 */
export function switchWishes(sheet: KitSheet): SwitchWishes | null {
  const number = new Map(sheet.microphones.map(({ id }, i) => [id, i]));
  const asking = sheet.pairs.flatMap((pair) => {
    const taken = countedTaken(pair);
    const strength = taken && strengthOf(sheet, pair, taken);
    if (!strength) return [];
    const wish: Wish = {
      drum: pair.drum,
      a: number.get(pair.a) as number,
      b: number.get(pair.b) as number,
      ...strength,
    };
    return [{ pair, wish }];
  });
  const follows = new Map(sheet.follows.map(({ microphone, drum }) => [number.get(microphone) as number, drum]));
  const plan = planOf(
    sheet.microphones.length,
    asking.map(({ wish }) => wish),
    follows,
  );
  if (plan === null) return null;
  const pairOf = (i: number): Pair => (asking[i] as { pair: Pair }).pair;
  const idsOf = (wishes: readonly number[]): string[] => wishes.map((i) => pairOf(i).id);
  return {
    change: plan.change.map((i) => sheet.microphones[i]?.id as string),
    unmet: idsOf(plan.unmet),
    ignored: idsOf(plan.ignored.filter((i) => !pairOf(i).done?.leftOnPurpose)),
  };
}

/** Which way the pair is wanted, and how much; null: it doesn't say. */
function strengthOf(sheet: KitSheet, pair: Pair, taken: Taken): Pick<Wish, 'turn' | 'weight'> | null {
  if (pair.done?.leftOnPurpose) return { turn: switchesDiffer(sheet, pair, taken) ? -1 : 1, weight: HELD_WISH_DB };
  const turned = fullerTurned(sheet, pair, taken);
  if (turned === null) return null;
  return { turn: turned ? -1 : 1, weight: Math.max(LEAST_WISH_DB, Math.abs(taken.fullerDb ?? 0)) };
}

/** What each drum says stands even where the whole kit is too much to try. */
function planOf(...given: Parameters<typeof planSwitches>): SwitchPlan | null {
  try {
    return planSwitches(...given);
  } catch (error) {
    if (error instanceof TooManyTogether) return null;
    throw error;
  }
}
