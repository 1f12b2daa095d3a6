import { COMMON_PRACTICE, FROM_FORMULA, type LessonWords } from './lessonWordsTypes';

export const whenNotToWords: LessonWords = {
  title: 'When not to align',
  steps: {
    align: {
      todo: 'A is close to the snare, B is an overhead. Delay A until both pushes begin together, within 0.05 ms.',
      seen: 'The snare is aligned.',
    },
    'other-drum': {
      todo: 'Leave the delay in. Have the floor tom hit instead.',
      seen: 'Here that delay is the wrong one: it moved everything that A hears.',
    },
    'take-back': {
      todo: 'Take A’s delay back to 0 and have the snare hit again.',
      seen: 'The overhead is late again, as far as it is away. You hear that as room.',
    },
    'wanted-distance': {
      todo: 'More room: put the overhead B 20 cm further from the snare or more, and leave the delay at 0. Where there is no space left for that, put it 20 cm closer.',
      seen: 'Not aligned, and meant so. You decide by ear, not by the figure.',
    },
  },
  learned:
    'A delay aligns one drum and shifts all others; a distance that is wanted stays, for that is what sounds wide.',
  facts: [
    { text: 'An overhead that is 3 ms late has its first notch at about 167 Hz.', source: FROM_FORMULA },
    { text: 'Wide overheads and room mics are often left as they are.', source: COMMON_PRACTICE },
  ],
};
