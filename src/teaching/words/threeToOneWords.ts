import { COMMON_PRACTICE, FROM_FORMULA, type LessonWords } from './lessonWordsTypes';

export const threeToOneWords: LessonWords = {
  title: 'Three to one, and what it really says',
  steps: {
    'by-distance': {
      todo: 'So far both were at equal level. Set the levels “by distance”: the mic further away hears the drum quieter.',
      seen: 'The notches no longer go down to nothing: B isn’t loud enough to cancel A.',
    },
    three: {
      todo: 'Move B until it is three times as far from the hit as A: the ratio says 3.0 : 1, give or take 0.1.',
      seen: 'B is 9.5 dB down, and the curve still goes up 2.5 dB and down 3.5 dB.',
    },
    invert: {
      todo: 'Invert B. Does the ripple get smaller?',
      seen: 'No: peaks and notches change places, and it’s as large. Only level makes it smaller.',
    },
    'small-dip': {
      todo: 'How far does B have to be for dips of 1 dB at most? Move it, or bring A closer.',
      seen: '9.2 : 1, or 19.3 dB. Three to one is where it begins to help.',
    },
  },
  learned: 'Three to one leaves a ripple of +2.5 and −3.5 dB: less, not inaudible; a dip of 1 dB takes 9.2 to 1.',
  facts: [
    {
      text: 'The rule is for a mic at another drum: three times as far from this one as this one’s own mic.',
      source: COMMON_PRACTICE,
    },
    { text: '3 : 1 is 9.5 dB by the 1/r law, so peaks of +2.5 dB and notches of −3.5 dB.', source: FROM_FORMULA },
    {
      text: 'With a snare, trained listeners still hear the comb with the delayed copy 18 dB down, most easily at 0.5–3 ms.',
      source: 'Brunner, Maempel and Weinzierl, AES 122nd Convention (2007), paper 7047, quoted second-hand',
    },
  ],
};
