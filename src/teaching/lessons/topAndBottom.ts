import { freshBench } from '../bench/edits';
import { type Lesson, type Look, NEAR_CM } from './lesson';

const onBothSides = ({ figures }: Look): boolean => figures.a.side !== figures.b.side;

export const topAndBottom: Lesson = {
  id: 'top-and-bottom',
  start: freshBench('snare', [-12, 14], [12, -16]),
  controls: ['invert-a', 'invert-b'],
  steps: [
    { id: 'watch', done: (now, from) => now.bench.watched > from.bench.watched && onBothSides(now) },
    { id: 'invert', done: (now) => onBothSides(now) && now.figures.polarity === 'same' },
    {
      id: 'distance',
      done: (now) => onBothSides(now) && now.figures.polarity === 'same' && Math.abs(now.figures.pathCm) <= NEAR_CM,
    },
    { id: 'same-side', done: (now) => !onBothSides(now) && now.figures.polarity === 'inverted' },
    { id: 'switch-back', done: (now) => !onBothSides(now) && now.figures.polarity === 'same' },
  ],
};
