/** What a state says of the inputs, whatever drum is hit. */
import { FAULT_STATES, type ReadingReason, type ReadingState } from './codes';
import type { InputFault } from './reading';

/** @returns null where nothing is wrong with them */
export function faultOf(state: ReadingState, reason: ReadingReason): InputFault | null {
  if (reason === 'no-common-signal') return { state: 'unclear', reason };
  const fault = FAULT_STATES.find((one) => one === state);
  return fault === undefined ? null : { state: fault, reason };
}
