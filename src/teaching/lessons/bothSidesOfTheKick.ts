import { freshBench } from '../bench/edits';
import { type Lesson, type Look, together } from './lesson';

const onBothSides = ({ figures }: Look): boolean => figures.a.side !== figures.b.side;

export const bothSidesOfTheKick: Lesson = {
  id: 'both-sides-of-the-kick',
  start: freshBench('kick', [-7, 5], [52, 4]),
  controls: ['invert-a', 'invert-b', 'delay-a'],
  steps: [
    { id: 'watch', done: (now, from) => now.bench.watched > from.bench.watched && onBothSides(now) },
    { id: 'invert', done: (now) => onBothSides(now) && now.figures.polarity === 'same' },
    {
      id: 'delay',
      done: (now) => onBothSides(now) && now.figures.polarity === 'same' && together(now) && now.bench.a.mixDelayMs > 0,
    },
  ],
};
