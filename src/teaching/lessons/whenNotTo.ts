import { freshBench } from '../bench/edits';
import { type Lesson, together } from './lesson';

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
      done: (now, from) => now.bench.a.mixDelayMs === 0 && now.figures.b.pathCm >= from.figures.b.pathCm + 20,
    },
  ],
};
