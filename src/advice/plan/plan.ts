/** From a Reading and a pair kind to what to do, why, and how sure: codes and numbers, the same in, the same out. */
import { answerOf, type Reading } from '../../reading/reading';
import { gapOf } from './gap';
import type { Plan, PlanContext } from './planTypes';
import { planArrival } from './withArrival';
import { planFixInput, planFollowing, planHitMore, planNoArrival } from './withoutArrival';

/** What to do about the pair. */
export function plan(reading: Reading, context: PlanContext): Plan {
  const said = answerOf(reading);
  switch (said.state) {
    case 'measured': {
      const gap = gapOf(said, reading.sampleRate, context.temperatureC);
      return gap === null ? planNoArrival(reading, said, context) : planArrival(reading, said, gap, context);
    }
    case 'following':
      return context.ended ? planHitMore(reading, context) : planFollowing(reading, said, context);
    case 'listening':
      return planHitMore(reading, context);
    case 'unclear':
      return said.reason === 'moved' || said.reason === 'nothing-yet' || said.reason === 'too-few-hits'
        ? planHitMore(reading, context)
        : planNoArrival(reading, said, context);
    case 'no-signal':
    case 'same-signal':
    case 'overloaded':
      return planFixInput(reading, said, context);
  }
}
