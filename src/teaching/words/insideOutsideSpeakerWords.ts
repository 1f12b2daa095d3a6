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
      seen: 'Slow, and late in the lows; there’s nothing in the highs, so nothing up there cancels any more. Does it point the same way?',
    },
    invert: {
      todo: 'A speaker can be wired either way. Try B’s switch, and leave it where both pushes go the same way.',
      seen: 'Below 50 Hz they add up now; round 150 Hz, where the speaker is late, they cancel more. Pushes and sum are two questions.',
    },
  },
  learned:
    'Inside and outside push the same way; a speaker as a mic is slow and wired either way: look at its push, then at the sum, and set its switch.',
  facts: [
    {
      text: 'P48 phantom power is 48 V through two resistors of 6.81 kΩ: check that it’s off, and check the wiring, before you plug in a speaker.',
      source: 'IEC 61938',
    },
    { text: 'The bench’s speaker passes what’s below 120 Hz.', source: COMMON_PRACTICE },
    { text: 'Such a low-pass (second order) delays the lows by 1.9 ms.', source: FROM_FORMULA },
  ],
};
