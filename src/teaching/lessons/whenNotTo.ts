import { mostPathCm } from '../bench/drums';
import { freshBench } from '../bench/edits';
import { type Lesson, lookAt, together } from './lesson';

const FURTHER_CM = 20;

export const whenNotTo: Lesson = {
  id: 'when-not-to',
  // A close to the snare, B over the kit
  start: freshBench('kit', [-40, 71], [20, 168]),
  controls: ['hit', 'delay-a'],
  steps: [
    {
      id: 'align',
      done: (now) => now.bench.hit === 'snare' && now.bench.a.mixDelayMs > 0 && together(now),
    },
    {
      id: 'other-drum',
      done: (now, from) =>
        now.bench.hit === 'floor-tom' && now.bench.a.mixDelayMs === from.bench.a.mixDelayMs && !together(now),
    },
    { id: 'take-back', done: ({ bench }) => bench.hit === 'snare' && bench.a.mixDelayMs === 0 },
    {
      id: 'wanted-distance',
      done({ bench, figures }, from) {
        // another drum hit isn't B put elsewhere: both paths from the snare
        const first = lookAt({ ...from.bench, hit: 'snare' }).figures.b.pathCm;
        const hasRoom = first + FURTHER_CM <= mostPathCm(bench, 'b');
        const moved = (figures.b.pathCm - first) * (hasRoom ? 1 : -1);
        return bench.hit === 'snare' && bench.a.mixDelayMs === 0 && moved >= FURTHER_CM;
      },
    },
  ],
};
