import { mostPathCm } from '../bench/drums';
import { freshBench, setHit, setMixDelay } from '../bench/edits';
import { figuresOf } from '../bench/figures';
import { type Lesson, lookAt, micsAt, together } from './lesson';

/** A close to the snare, B over the kit */
const START = [
  [-40, 71],
  [20, 168],
] as const;
const FURTHER_CM = 20;

export const whenNotTo: Lesson = {
  id: 'when-not-to',
  start: freshBench('kit', ...START),
  controls: ['hit', 'delay-a'],
  steps: [
    {
      id: 'align',
      done: (now) => now.bench.hit === 'snare' && now.bench.a.mixDelayMs > 0 && together(now),
      left(bench) {
        const begun = micsAt(setMixDelay(setHit(bench, 'snare'), 'a', 0), ...START);
        return setMixDelay(begun, 'a', figuresOf(begun).delayMs);
      },
    },
    {
      id: 'other-drum',
      done: (now, from) =>
        now.bench.hit === 'floor-tom' && now.bench.a.mixDelayMs === from.bench.a.mixDelayMs && !together(now),
      left: (bench) => setHit(bench, 'floor-tom'),
    },
    {
      id: 'take-back',
      done: ({ bench }) => bench.hit === 'snare' && bench.a.mixDelayMs === 0,
      left: (bench) => setMixDelay(setHit(bench, 'snare'), 'a', 0),
    },
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
