import { freshBench } from '../bench/edits';
import { type Lesson, type Look, lookAt, NEAR_CM } from './lesson';

const even = ({ figures }: Look): boolean => Math.abs(figures.pathCm) <= 2 * NEAR_CM;

export const twoOverheads: Lesson = {
  id: 'two-overheads',
  start: freshBench('kit', [-84, 158], [58, 162]),
  controls: ['hit'],
  steps: [
    { id: 'even', done: (now) => now.bench.hit === 'snare' && even(now) },
    {
      id: 'floor-tom',
      done: (now) => now.bench.hit === 'floor-tom' && !even(now) && even(lookAt({ ...now.bench, hit: 'snare' })),
    },
    {
      id: 'higher',
      done: (now, from) =>
        now.bench.hit === 'snare' &&
        even(now) &&
        now.bench.a.grille.yCm >= from.bench.a.grille.yCm + 10 &&
        now.bench.b.grille.yCm >= from.bench.b.grille.yCm + 10,
    },
  ],
};
