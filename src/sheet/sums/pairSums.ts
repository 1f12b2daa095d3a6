/** How a pair's numbers on the sheet come about, from the reading and the plan that the sheet keeps. */
import type { Alternative } from '../../advice/plan/alternatives';
import { type Arrival, type ArrivalFrom, arrivalSumsOf, toldMoveSum } from '../../advice/sums/arrivalSums';
import { fullerSum, gainSum, levelFromDb } from '../../advice/sums/gainSum';
import { clockText } from '../../text/clock';
import { bandText } from '../../text/frequency';
import type { Sum } from '../../text/sum';
import { type KitSheet, lastTaken, type Pair, type Taken } from '../document/model';
import type { KitSystem } from '../kit/kitSystem';
import { inKit, leftOf } from '../kit/pairLine';
import { isPresent, type PairPlan, sameAction } from '../pair/pairPlan';
import { recheck } from '../pair/recheck';
import { closuresOf } from './drumSums';
import { pairDelaySum } from './mixSums';
import { recheckSum } from './recheckSum';
import { sumIdOf } from './sumPlace';

/** What a sheet keeps of a reading. */
const KEPT: ArrivalFrom = {
  delay: null,
  note: 'Positive: B hears the drum later.',
  each: 'not kept on the sheet',
  wholeAccuracy: true,
};

/** @param system null: the whole kit isn't worked out @param now for times of day */
export function pairSums(sheet: KitSheet, system: KitSystem | null, pair: Pair, now: Date): Sum[] {
  const taken = lastTaken(pair);
  if (taken === null) return [];
  const id = (number: string): string => sumIdOf({ kind: 'pair', of: pair.id, number });
  const arrival = arrivalOf(taken);
  const octave = octaveText(taken);
  return [
    ...(arrival === null ? [] : arrivalSumsOf(arrival).filter(({ result }) => result !== null)),
    ...(taken.fuller === null || taken.fuller === 'either' || taken.fullerDb === null || taken.lowCoherency === null
      ? []
      : [fullerSum('fuller', octave, taken.lowCoherency)]),
    ...planSums(sheet, system, pair, taken, octave),
    ...comparedSums(pair, taken, now),
  ]
    .map((one): Sum => ({ ...one, id: id(one.id) }))
    .concat(system === null ? [] : closuresOf(sheet, system.drums, pair));
}

function arrivalOf(taken: Taken): Arrival | null {
  const { sure, polarity, delayMs, sampleRate, temperatureC, hitsUsed, spreadMs, uncertaintyMs } = taken;
  if (!sure || delayMs === null) return null;
  const samples = (ms: number | null): number | null => (ms === null ? null : (ms / 1000) * sampleRate);
  return {
    said: {
      state: 'measured',
      polarity: polarity ?? 'same',
      method: null,
      hitsUsed,
      delaySamples: samples(delayMs) as number,
      spreadSamples: samples(spreadMs),
      uncertaintySamples: samples(uncertaintyMs),
    },
    sampleRate,
    temperatureC,
    from: KEPT,
  };
}

const octaveText = ({ fullerLowHz, fullerHighHz }: Taken): string =>
  fullerLowHz === null || fullerHighHz === null ? '' : ` (${bandText(fullerLowHz, fullerHighHz)})`;

/** What is left to do, and what it gains. */
function planSums(sheet: KitSheet, system: KitSystem | null, pair: Pair, taken: Taken, octave: string): Sum[] {
  const choice = system?.choice ?? null;
  const left = leftOf(sheet, choice, pair);
  if (left === null) return [];
  const { action, plan } = left;
  const got = inKit(choice, pair);
  const arrival = arrivalOf(taken);
  return [
    ...gains(plan, action, octave, ''),
    ...(got && !sameAction(got.own, got.gets) ? gains(plan, got.own, octave, ', by its own plan') : []),
    ...(action.delayMs === null ? [] : [pairDelaySum(sheet, choice, pair, taken, action)]),
    ...(action.moveCm === null || arrival === null ? [] : [toldMoveSum(arrival, pair.kind, action.moveCm)]),
  ];
}

function gains({ timings: [present] }: PairPlan, action: Alternative, octave: string, whose: string): Sum[] {
  if (present === undefined || isPresent(action)) return [];
  return (['lowDb', 'allDb'] as const).flatMap((figure): Sum[] => {
    const [now, gainDb] = [present.asIs[figure], action[figure]];
    if (now === null || gainDb === null) return [];
    const low = figure === 'lowDb';
    const name = low ? `Gain in the low octave${octave}` : 'Gain overall';
    const id = `${low ? 'low-octave' : 'overall'}${whose === '' ? '' : '-own'}`;
    return [
      gainSum(
        id,
        `${name}${whose}`,
        low ? 'there' : 'from 30 Hz to 10 kHz',
        levelFromDb(now),
        levelFromDb(now + gainDb),
      ),
    ];
  });
}

/** What was moved, and what a recheck found. */
function comparedSums({ before, after, done, checked }: Pair, taken: Taken, now: Date): Sum[] {
  const at = (iso: string): string => clockText(iso, now);
  const moved = before && after && done?.movedCm ? recheck(before, after) : null;
  return [
    ...(moved?.fartherCm == null || before === null || after === null
      ? []
      : [
          recheckSum({
            ...moved,
            id: 'moved',
            name: 'How far B was moved',
            fartherCm: moved.fartherCm,
            first: `before, at ${at(before.takenAt)}`,
            second: `after, at ${at(after.takenAt)}`,
          }),
        ]),
    ...(checked?.fartherCm == null
      ? []
      : [
          recheckSum({
            id: 'recheck',
            name: 'Change at the recheck',
            pathsCm: checked.pathsCm ?? null,
            seenFromCm: null,
            fartherCm: checked.fartherCm,
            first: `as accepted, at ${at(taken.takenAt)}`,
            second: `at the recheck, at ${at(checked.checkedAt)}`,
          }),
        ]),
  ];
}
