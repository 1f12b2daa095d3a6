import { COMMON_PRACTICE, FROM_FORMULA, type LessonWords } from './lessonWordsTypes';

export const hiddenCapsuleWords: LessonWords = {
  title: 'The capsule hidden in the body',
  steps: {
    'bring-closer': {
      todo: 'Both grilles are at the same distance, yet B is late. Move B until the paths differ by 5 mm at most.',
      seen: 'B’s grille is closer now; its capsule is as far away as A’s.',
    },
    'another-mic': {
      todo: 'Put another mic in B’s place: change how far its capsule sits behind the grille by 2 cm or more. Don’t move it.',
      seen: 'Nothing moved on the stand, and the notches are elsewhere.',
    },
    again: {
      todo: 'Move B until this one is aligned too: paths within 5 mm of each other.',
      seen: 'It worked, and the tape measure at the grilles would have said no.',
    },
  },
  learned: 'Measure to the capsule, not to the grille: 4 cm hidden in the body put the first notch at 4.3 kHz.',
  facts: [
    { text: '4 cm are 0.12 ms at 20 °C, and the first notch is at 4.3 kHz.', source: FROM_FORMULA },
    { text: 'How deep the capsule sits differs from mic to mic; look into its data sheet.', source: COMMON_PRACTICE },
  ],
};
