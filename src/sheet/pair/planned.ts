/** What can be done about a pair, and what the meter recommends, from a reading: by the pair's own A and B. */
import type { Advice } from '../../advice/advice';
import { advise } from '../../advice/advise';
import type { Action } from '../../advice/plan/alternatives';
import type { PairKindId } from '../../advice/plan/pairKinds';
import { sumByDelayOf, swappedSum } from '../../advice/plan/sumByDelay';
import { timingsOf } from '../../advice/plan/timings';
import { answerOf, type Reading } from '../../reading/reading';
import type { Taken } from '../document/model';

export interface PlannedWith {
  kind: PairKindId;
  temperatureC: number;
  /** the meter's own invert is on, and stands for no switch */
  meterInvert: boolean;
  /** the meter's A is the pair's B */
  turned: boolean;
  /** what stands on the meter already: it is held, or a person chose it; null: nothing, or nobody looks */
  shown: Pick<Advice, 'plan' | 'fine' | 'chosen'> | null;
}

export function plannedOf(
  reading: Reading,
  { kind, temperatureC, meterInvert, turned, shown }: PlannedWith,
): Pick<Taken, 'timings' | 'sumByDelay' | 'plan'> {
  const [before] = shown?.plan ?? [];
  const context = {
    kind,
    temperatureC,
    invertB: meterInvert,
    standing: before ? { ...actionOf(before), fine: shown?.fine ?? false } : null,
    chosen: before && shown?.chosen ? actionOf(before) : null,
  };
  const ofPair = <T extends Pick<Action, 'delayMs' | 'moveCm'>>(one: T): T =>
    turned ? { ...one, delayMs: minus(one.delayMs), moveCm: minus(one.moveCm) } : one;
  const [recommended] = advise(reading, context).plan;
  const timings = timingsOf(reading, context).map(ofPair);
  // where not even a delay is offered nothing is told of any
  const sum =
    timings.length > 0 && answerOf(reading).state === 'measured'
      ? sumByDelayOf(reading.sum, reading.sampleRate, meterInvert)
      : null;
  return {
    timings,
    sumByDelay: sum && turned ? swappedSum(sum) : sum,
    plan: recommended ? ofPair(actionOf(recommended)) : null,
  };
}

/** Of an alternative what is to be done, without what it gains. */
export const actionOf = ({ invertB, delayMs, moveCm }: Action): Action => ({ invertB, delayMs, moveCm });

// 0 stays 0
const minus = (x: number | null): number | null => (x === null ? null : 0 - x);
