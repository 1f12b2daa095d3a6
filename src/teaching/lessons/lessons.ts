/** All lessons, by id. */
import { bothSidesOfTheKick } from './bothSidesOfTheKick';
import { hiddenCapsule } from './hiddenCapsule';
import { insideOutsideSpeaker } from './insideOutsideSpeaker';
import type { Lesson, LessonId } from './lesson';
import { polarityNotDelay } from './polarityNotDelay';
import { threeToOne } from './threeToOne';
import { topAndBottom } from './topAndBottom';
import { twoOverheads } from './twoOverheads';
import { whenNotTo } from './whenNotTo';

export const LESSONS: Readonly<Record<LessonId, Lesson>> = {
  'polarity-not-delay': polarityNotDelay,
  'hidden-capsule': hiddenCapsule,
  'top-and-bottom': topAndBottom,
  'inside-outside-speaker': insideOutsideSpeaker,
  'both-sides-of-the-kick': bothSidesOfTheKick,
  'two-overheads': twoOverheads,
  'three-to-one': threeToOne,
  'when-not-to': whenNotTo,
};
