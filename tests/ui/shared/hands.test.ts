import { expect, it } from 'vitest';
import { advise } from '../../../src/advice/advise';
import { answerOf } from '../../../src/reading/reading';
import { sendsHands } from '../../../src/ui/shared/hands';
import { measured, reading } from '../../advice/readings';

it.each([
  ['a silent input: check its cable', reading({ state: 'no-signal', reason: 'b-silent' }), true],
  [
    'start and shape disagree: bring the two nearer',
    reading({ state: 'unclear', reason: 'witnesses-disagree', drum: 1 }),
    true,
  ],
  ['an input that clips: a gain', reading({ state: 'overloaded', reason: 'clipped-a' }), false],
  ['too few hits', reading({ hits: 1, hitsPooled: 1, reason: 'too-few-hits' }), false],
  ['nothing to do', measured('same', 0.1), false],
])('%s', (_, read, expected) => {
  const { cautions } = advise(read, { kind: 'same-side', temperatureC: 20, invertB: false });
  expect(sendsHands(answerOf(read), cautions)).toBe(expected);
});

it('nothing is said twice: a move has its own caution for that', () => {
  const silent = answerOf(reading({ state: 'no-signal', reason: 'b-silent' }));
  expect(sendsHands(silent, ['Ask the drummer to stop before you reach in; measure again after.'])).toBe(false);
  expect(sendsHands(null, [])).toBe(false);
});
