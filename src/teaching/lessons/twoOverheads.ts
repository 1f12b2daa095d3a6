import { freshBench, setHit } from '../bench/edits';
import { MIC_IDS } from '../bench/model';
import { type Lesson, type Look, lookAt, micsAt, NEAR_CM } from './lesson';

const even = ({ figures }: Look): boolean => Math.abs(figures.pathCm) <= 2 * NEAR_CM;

export const twoOverheads: Lesson = {
  id: 'two-overheads',
  start: freshBench('kit', [-84, 158], [58, 162]),
  controls: ['hit'],
  steps: [
    {
      id: 'even',
      done: (now) => now.bench.hit === 'snare' && even(now),
      left: (bench) => micsAt(setHit(bench, 'snare'), [-84, 158], [28, 158]),
    },
    {
      id: 'floor-tom',
      done: (now) => now.bench.hit === 'floor-tom' && !even(now) && even(lookAt({ ...now.bench, hit: 'snare' })),
      left: (bench) => setHit(bench, 'floor-tom'),
    },
    {
      // either way: from wherever they hang there is room for one of them
      id: 'other-height',
      done: (now, from) =>
        now.bench.hit === 'snare' &&
        even(now) &&
        MIC_IDS.every((mic) => Math.abs(now.bench[mic].grille.yCm - from.bench[mic].grille.yCm) >= 10),
    },
  ],
};
