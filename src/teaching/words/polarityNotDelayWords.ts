import { FROM_FORMULA, HANDBOOK, type LessonWords } from './lessonWordsTypes';

export const polarityNotDelayWords: LessonWords = {
  title: 'Polarity is not delay',
  steps: {
    invert: {
      todo: 'Invert B. Watch B’s push, and where the notches are.',
      seen: 'The push points the other way, at the same moment. Peaks and notches changed places, all at once.',
    },
    move: {
      todo: 'Leave the switch alone. Move B by 5 cm or more and watch the notches.',
      seen: 'The push came at another moment, pointing the same way. The notches slid along, closer together or further apart.',
    },
    both: {
      todo: 'Get rid of the notches: bring B to A’s distance, and set the switch so that both pushes go the same way.',
      seen: 'Flat, and 6 dB up but for the very top. It took both: the switch and the distance.',
    },
  },
  learned:
    'The switch makes peaks and notches change places; a move or a delay slides them. Neither does the other’s work.',
  facts: [
    {
      text: 'With a delay of 1 ms the notches lie at 500, 1500 and 2500 Hz; the peaks, 6 dB up, halfway between.',
      source: HANDBOOK,
    },
    { text: 'Inverted, they lie at 0, 1000 and 2000 Hz: peaks and notches change places.', source: FROM_FORMULA },
  ],
};
