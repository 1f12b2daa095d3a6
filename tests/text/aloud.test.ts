import { expect, test } from 'vitest';
import { aloudText } from '../../src/text/aloud';

test.for([
  ['Snare bottom: 2.5 cm closer', 'Snare bottom: two and a half centimetres closer'],
  ['Invert B. Then B: 1 cm back', 'Invert B. Then B: one centimetre back'],
  ['B: 0.5 cm closer', 'B: half a centimetre closer'],
  ['B: 1.5 cm closer', 'B: one and a half centimetres closer'],
  ['B: 12 cm closer', 'B: 12 centimetres closer'],
  ['Delay A by 0.42 ms in the mix', 'Delay A by 0.42 milliseconds in the mix'],
  ['Delay A by 1 ms in the mix', 'Delay A by one millisecond in the mix'],
  ['100 cm is a long way: check the patch', '100 centimetres is a long way: check the patch'],
  ['Press B’s polarity switch, “Invert B here” off', 'Press B’s polarity switch, Invert B here off'],
  ['Patch Kick in & Kick out', 'Patch Kick in and Kick out'],
  ['Leave it', 'Leave it'],
])('%s', ([text, aloud]) => {
  expect(aloudText(text as string)).toBe(aloud);
});
