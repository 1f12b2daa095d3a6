/** Every number of the meter, and how it comes about. */
import type { Reading } from '../../reading/reading';
import type { Advice, AdviceContext } from '../advice';
import { arrivalSums } from './arrivalSums';
import { levelSumsOf } from './levelSums';
import type { Sum } from './sumTypes';

/** @param advice what is recommended, whose gains are worked out; null: nothing */
export const sumsOf = (reading: Reading, advice: Advice | null, context: AdviceContext): Sum[] => [
  ...arrivalSums(reading, context),
  ...levelSumsOf(reading, advice, context),
];
