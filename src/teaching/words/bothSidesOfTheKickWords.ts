import { COMMON_PRACTICE, FROM_FORMULA, type LessonWords } from './lessonWordsTypes';

export const bothSidesOfTheKickWords: LessonWords = {
  title: 'Both sides of the kick',
  steps: {
    watch: {
      todo: 'A is on the beater side, B in front. Press “Watch the hit”: which way does the head go at each?',
      seen: 'Away from A, towards B: the pushes are opposite, as with top and bottom of a snare.',
    },
    invert: {
      todo: 'Make both pushes go the same way with one polarity switch.',
      seen: 'Same way, but far apart: B hears the beater through the whole shell.',
    },
    delay: {
      todo: 'B can’t come through the shell, so delay A in the mix until both pushes begin together, within 0.05 ms.',
      seen: 'Together, with the mics where they are. A delay does what a move can’t.',
    },
  },
  learned: 'Beater side and front push opposite ways: invert one; what the shell keeps apart, a delay brings together.',
  facts: [
    {
      text: 'The batter head moves away from one mic while the front head moves towards the other, so inverted is usual.',
      source: COMMON_PRACTICE,
    },
    { text: '1 m is 2.91 ms at 20 °C, or 140 samples at 48 kHz.', source: FROM_FORMULA },
    {
      text: 'At the kit: stop the drummer before you reach in, and step away before the next hit.',
      source: COMMON_PRACTICE,
    },
  ],
};
