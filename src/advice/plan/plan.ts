/** From a Reading and a pair kind to what to do, why, and how sure: codes and numbers, the same in, the same out. */
import { answerOf, type Reading, type Said } from '../../reading/reading';
import { othersPlayed } from './drums';
import { gapOf, isFar } from './gap';
import { pairKind } from './pairKinds';
import type { Plan, PlanContext } from './planTypes';
import { timingsOf } from './timings';
import { planAnswer, planFar } from './withAnswer';
import { planFixInput, planFollowing, planHitMore, planNoAnswer } from './withoutAnswer';

/** What to do about the pair. */
export function plan(reading: Reading, context: PlanContext): Plan {
  const made = planOf(reading, context);
  const others = context.ended ? [] : othersPlayed(reading);
  // while an input is to be put right or a microphone is moved, that is what counts
  if (others.length === 0 || made.type === 'fix-input' || made.type === 'following') return made;
  return { ...made, notes: [...made.notes, { code: 'others-played', drums: others }] };
}

function planOf(reading: Reading, context: PlanContext): Plan {
  const said = answerOf(reading);
  switch (said.state) {
    case 'measured':
      return planWhatIsThere(reading, said, context);
    case 'following':
      return context.ended ? planHitMore(reading, context) : planFollowing(reading, said, context);
    case 'listening':
      return planHitMore(reading, context);
    case 'unclear':
      return said.reason === 'moved' || said.reason === 'nothing-yet' || said.reason === 'too-few-hits'
        ? planHitMore(reading, context)
        : planWhatIsThere(reading, said, context);
    case 'no-signal':
    case 'same-signal':
    case 'overloaded':
      return planFixInput(reading, said, context);
  }
}

/** Arrival and sum, one of the two, or neither. */
function planWhatIsThere(reading: Reading, said: Said, context: PlanContext): Plan {
  const gap = said.state === 'measured' ? gapOf(said, reading.sampleRate, context.temperatureC) : null;
  if (gap !== null && isFar(pairKind(context.kind), gap)) return planFar(reading, said, gap, context);
  // two that have nothing in common have no sum worth the name, whatever a band says; a sum of fewer hits than an answer needs, of
  // one of several drums, isn't the pair's; and while it is open which drum is meant there is none
  const none = said.reason === 'no-common-signal' || said.reason === 'several-drums' || said.reason === 'which-drum';
  const timings = none ? [] : timingsOf(reading, context);
  return timings.length === 0 ? planNoAnswer(reading, said, context) : planAnswer(reading, said, gap, timings, context);
}
