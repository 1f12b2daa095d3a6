import { freshBench, moveMic } from '../bench/edits';
import type { Bench } from '../bench/model';
import { type Lesson, type Look, lookAt, micsAt, NEAR_CM, sameWay } from './lesson';

/** A, B */
const START = [
  [-12, 14],
  [12, -16],
] as const;
const onBothSides = ({ figures }: Look): boolean => figures.a.side !== figures.b.side;

/** One above, one below, with a switch between them. */
const switched = (bench: Bench): Bench => sameWay(onBothSides(lookAt(bench)) ? bench : micsAt(bench, ...START), 'a');
const together = (bench: Bench): Bench => sameWay(micsAt(bench, [-18, 26], [12, -16]), 'a');

export const topAndBottom: Lesson = {
  id: 'top-and-bottom',
  start: freshBench('snare', ...START),
  controls: ['invert-a', 'invert-b'],
  steps: [
    { id: 'watch', done: (now, from) => now.bench.watched > from.bench.watched && onBothSides(now) },
    { id: 'invert', done: (now) => onBothSides(now) && now.figures.polarity === 'same', left: switched },
    {
      id: 'distance',
      done: (now) => onBothSides(now) && now.figures.polarity === 'same' && Math.abs(now.figures.pathCm) <= NEAR_CM,
      left: together,
    },
    {
      id: 'same-side',
      done: (now) => !onBothSides(now) && now.figures.polarity === 'inverted',
      left: (bench) => moveMic(together(bench), 'b', { xCm: 18, yCm: 26 }),
    },
    { id: 'switch-back', done: (now) => !onBothSides(now) && now.figures.polarity === 'same' },
  ],
};
