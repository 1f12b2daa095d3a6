import { COMMON_PRACTICE, FROM_FORMULA, type LessonWords } from './lessonWordsTypes';

export const insideOutsideSpeakerWords: LessonWords = {
  title: 'Inside, outside and a speaker as a mic',
  steps: {
    closer: {
      todo: 'A is inside, B is outside. Do their pushes go the same way? Leave the switch as it is, and bring B 10 cm closer to A’s distance.',
      seen: 'Same way: the beater pushes the air towards both. Only the distance between them counts.',
    },
    'phantom-off': {
      todo: 'B is to be a speaker used as a mic. First of all: B’s phantom power off.',
      seen: 'Off. Only now is it plugged in.',
    },
    speaker: {
      todo: 'Make B a speaker used as a mic. Watch how its push looks.',
      seen: 'Slow, and late in the lows; there’s nothing in the highs, so nothing up there cancels any more. And it points the other way.',
    },
    invert: {
      todo: 'A speaker can be wired either way, and this one’s push goes against A’s. Put that right.',
      seen: 'The lows add up. No rule told you which way: you looked at the pushes.',
    },
  },
  learned:
    'Inside and outside push the same way; a speaker as a mic is slow and wired either way: look, then set its switch.',
  facts: [
    {
      text: 'P48 phantom power is 48 V through two resistors of 6.81 kΩ: check that it’s off, and check the wiring, before you plug in a speaker.',
      source: 'IEC 61938',
    },
    { text: 'The bench’s speaker passes what’s below 120 Hz.', source: COMMON_PRACTICE },
    { text: 'Such a low-pass (second order) delays the lows by 1.9 ms.', source: FROM_FORMULA },
  ],
};
