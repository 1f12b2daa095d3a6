import { distanceCm, hitPlace } from '../bench/drums';
import { freshBench, setBody } from '../bench/edits';
import type { Bench } from '../bench/model';
import { type Lesson, micsAt, NEAR_CM } from './lesson';

/** How much further B's grille is than A's, cm. */
const grillesCm = (bench: Bench): number => {
  const { at } = hitPlace(bench);
  return distanceCm(bench.b.grille, at) - distanceCm(bench.a.grille, at);
};

export const hiddenCapsule: Lesson = {
  id: 'hidden-capsule',
  // both grilles at one distance; B's capsule sits 4.5 cm back in its body, A's 0.5 cm
  start: freshBench('snare', [-12, 20], [12, 20, { bodyCm: 4.5 }]),
  controls: ['body-b'],
  steps: [
    {
      id: 'bring-closer',
      done: ({ bench, figures }) => Math.abs(figures.pathCm) <= NEAR_CM && grillesCm(bench) <= -2,
      left: (bench) => micsAt(setBody(bench, 'b', 4.5), [-12, 20], [9.3, 17]),
    },
    {
      id: 'another-mic',
      done: ({ bench }, from, before) =>
        Math.abs(bench.b.bodyCm - from.bench.b.bodyCm) >= 2 && grillesCm(bench) === grillesCm(before.bench),
      left: (bench) => setBody(bench, 'b', bench.b.bodyCm > 3 ? 2 : 4.5),
    },
    {
      id: 'again',
      // by a move: another mic still would be none that was aligned
      done: ({ bench, figures }, _from, before) =>
        Math.abs(figures.pathCm) <= NEAR_CM && grillesCm(bench) !== grillesCm(before.bench),
    },
  ],
};
