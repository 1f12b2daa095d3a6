import { freshBench } from '../bench/edits';
import type { Lesson } from './lesson';

/** Dip of a copy L dB down re the louder alone is 1 dB at L = 19.3 dB: 9.2 times the distance (20·log10(1 − 10^(−L/20))). */
const SMALL_DIP_DB = 1;

export const threeToOne: Lesson = {
  id: 'three-to-one',
  start: freshBench('snare', [-3, 10.7, { bodyCm: 0.3 }], [6, 12.6]),
  controls: ['levels', 'invert-b'],
  steps: [
    { id: 'by-distance', done: ({ bench }) => bench.levels === 'distance' },
    {
      id: 'three',
      done: ({ bench, figures }) =>
        bench.levels === 'distance' && figures.pathCm > 0 && Math.abs(figures.ratio - 3) <= 0.1,
    },
    {
      id: 'invert',
      done: (now, _from, before) =>
        now.bench.levels === 'distance' &&
        now.figures.polarity !== before.figures.polarity &&
        now.figures.ratio === before.figures.ratio,
    },
    {
      id: 'small-dip',
      done: ({ bench, figures }) => bench.levels === 'distance' && figures.notchDb >= -SMALL_DIP_DB,
    },
  ],
};
