/** Every fault that is tried. */
import type { Fault } from './faultTypes';
import { FILE_FAULTS } from './files/fileFaults';
import { INPUT_OPENING } from './live/inputOpening';
import { INPUT_SIGNAL } from './live/inputSignal';
import { INPUT_SYSTEM } from './live/inputSystem';
import { liveFaults } from './live/liveTrial';
import { THREAD_BLOCKS } from './live/threadBlocks';
import { THREAD_TIME } from './live/threadTime';
import { SHEET_FAULTS } from './sheets/sheetFaults';

export const FAULTS: readonly Fault[] = [
  ...liveFaults('input', [...INPUT_OPENING, ...INPUT_SIGNAL, ...INPUT_SYSTEM]),
  ...liveFaults('thread', [...THREAD_TIME, ...THREAD_BLOCKS]),
  ...FILE_FAULTS,
  ...SHEET_FAULTS,
];
