import { freshBench } from '../bench/edits';
import { type Lesson, type Look, lookAt, micsAt, sameWay, together } from './lesson';

/** A, B */
const START = [
  [-7, 5],
  [52, 4],
] as const;
const onBothSides = ({ figures }: Look): boolean => figures.a.side !== figures.b.side;

export const bothSidesOfTheKick: Lesson = {
  id: 'both-sides-of-the-kick',
  start: freshBench('kick', ...START),
  controls: ['invert-a', 'invert-b', 'delay-a'],
  steps: [
    { id: 'watch', done: (now, from) => now.bench.watched > from.bench.watched && onBothSides(now) },
    {
      id: 'invert',
      done: (now) => onBothSides(now) && now.figures.polarity === 'same',
      left: (bench) => sameWay(onBothSides(lookAt(bench)) ? bench : micsAt(bench, ...START), 'b'),
    },
    {
      id: 'delay',
      done: (now) => onBothSides(now) && now.figures.polarity === 'same' && together(now) && now.bench.a.mixDelayMs > 0,
    },
  ],
};
