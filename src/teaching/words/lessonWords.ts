/** Each lesson’s words, by its id. */
import type { LessonId } from '../lessons/lesson';
import { bothSidesOfTheKickWords } from './bothSidesOfTheKickWords';
import { hiddenCapsuleWords } from './hiddenCapsuleWords';
import { insideOutsideSpeakerWords } from './insideOutsideSpeakerWords';
import type { LessonWords } from './lessonWordsTypes';
import { polarityNotDelayWords } from './polarityNotDelayWords';
import { threeToOneWords } from './threeToOneWords';
import { topAndBottomWords } from './topAndBottomWords';
import { twoOverheadsWords } from './twoOverheadsWords';
import { whenNotToWords } from './whenNotToWords';

export const LESSON_WORDS: Readonly<Record<LessonId, LessonWords>> = {
  'polarity-not-delay': polarityNotDelayWords,
  'hidden-capsule': hiddenCapsuleWords,
  'top-and-bottom': topAndBottomWords,
  'inside-outside-speaker': insideOutsideSpeakerWords,
  'both-sides-of-the-kick': bothSidesOfTheKickWords,
  'two-overheads': twoOverheadsWords,
  'three-to-one': threeToOneWords,
  'when-not-to': whenNotToWords,
};
