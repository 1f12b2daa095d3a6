import { COMMON_PRACTICE, type LessonWords } from './lessonWordsTypes';

export const topAndBottomWords: LessonWords = {
  title: 'Top and bottom',
  steps: {
    watch: {
      todo: 'Press “Watch the hit”. Which way does the head go: away from A, or towards it? And B?',
      seen: 'The head goes away from the mic above and so towards the mic below: one push down, the other up.',
    },
    invert: {
      todo: 'Make both pushes go the same way with one polarity switch.',
      seen: 'The lows add up now. The notches are still there, in other places: B is still later.',
    },
    distance: {
      todo: 'Now the distance: move the mics until the paths differ by 5 mm at most. Each stays on its side.',
      seen: 'Both pushes at once, both the same way: that needed a switch and a move.',
    },
    'same-side': {
      todo: 'Leave the switches. Take B up, to A’s side of the drum.',
      seen: 'The same switch is wrong here: on the same side both pushes go the same way by themselves.',
    },
    'switch-back': {
      todo: 'Set the switch right for two mics on the same side.',
      seen: 'Both on the same side, no switch between them.',
    },
  },
  learned: 'The head that goes away from the top mic comes towards the bottom mic: invert one of the two.',
  facts: [
    {
      text: 'Invert the bottom mic, or the top one: only the difference between them counts.',
      source: COMMON_PRACTICE,
    },
    {
      text: 'The bench draws the sound straight from the place hit to the capsule; in a drum it goes through air, shell and bottom head.',
      source: 'how this bench works',
    },
    {
      text: 'At the kit: stop the drummer before you reach in, and step away before the next hit.',
      source: COMMON_PRACTICE,
    },
  ],
};
