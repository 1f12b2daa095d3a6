import { expect, test } from 'vitest';
import { advise } from '../../../src/advice/advise';
import { answerOf } from '../../../src/reading/reading';
import { createShown } from '../../../src/ui/page/createShown';
import { measured } from '../../advice/readings';

test('while the next pair is being patched nothing of the last one’s reading is shown', () => {
  const read = measured('inverted', 3);
  const advice = advise(read, { kind: 'other', temperatureC: 20, invertB: false });
  let patching = false;
  const shown = createShown(
    { reading: () => read, standsOn: () => answerOf(read), advice: () => advice },
    () => patching,
  );
  expect([shown.reading(), shown.answer(), shown.advice()]).toEqual([read, answerOf(read), advice]);
  patching = true;
  expect([shown.reading(), shown.answer(), shown.advice()]).toEqual([null, null, null]);
});
