import { COMMON_PRACTICE, FROM_FORMULA, type LessonWords } from './lessonWordsTypes';

export const twoOverheadsWords: LessonWords = {
  title: 'Two overheads, the snare in the middle',
  steps: {
    even: {
      todo: 'Move the overheads until both are equally far from the snare, to 1 cm.',
      seen: 'The snare arrives at both at once: in stereo it’s in the middle, and in mono its first notch lies at 17 kHz or above.',
    },
    'floor-tom': {
      todo: 'Leave the mics. Have the floor tom hit instead.',
      seen: 'The floor tom is nearer to one of them: it comes from its side, as it should.',
    },
    'other-height': {
      todo: 'Back to the snare. Put each overhead at least 10 cm higher or lower, and keep the snare in the middle, to 1 cm.',
      seen: 'Another height, still even: a string from the snare to each capsule does the same at the kit.',
    },
  },
  learned:
    'Equal paths put one drum in the middle; every other drum keeps a difference of its own, and that is the stereo picture.',
  facts: [
    { text: 'A string of one length from the snare to both capsules.', source: COMMON_PRACTICE },
    { text: 'Two equal mics a centimetre apart have their first notch at 17 kHz: near enough.', source: FROM_FORMULA },
  ],
};
