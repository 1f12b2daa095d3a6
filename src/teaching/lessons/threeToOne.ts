import { freshBench, invert, setLevels } from '../bench/edits';
import { type Lesson, micsAt } from './lesson';

/** Dip of a copy L dB down re the louder alone is 1 dB at L = 19.3 dB: 9.2 times the distance (20·log10(1 − 10^(−L/20))). */
const SMALL_DIP_DB = 1;

export const threeToOne: Lesson = {
  id: 'three-to-one',
  start: freshBench('snare', [-3, 10.7, { bodyCm: 0.3 }], [6, 12.6]),
  controls: ['levels', 'invert-b'],
  steps: [
    {
      id: 'by-distance',
      done: ({ bench }) => bench.levels === 'distance',
      left: (bench) => setLevels(bench, 'distance'),
    },
    {
      id: 'three',
      done: ({ bench, figures }) =>
        bench.levels === 'distance' && figures.pathCm > 0 && Math.abs(figures.ratio - 3) <= 0.1,
      left: (bench) => micsAt(setLevels(bench, 'distance'), [-3, 10.7], [10, 18.3]),
    },
    {
      id: 'invert',
      done: (now, _from, before) =>
        now.bench.levels === 'distance' &&
        now.figures.polarity !== before.figures.polarity &&
        now.figures.ratio === before.figures.ratio,
      left: (bench) => invert(setLevels(bench, 'distance'), 'b'),
    },
    {
      id: 'small-dip',
      done: ({ bench, figures }) => bench.levels === 'distance' && figures.notchDb >= -SMALL_DIP_DB,
    },
  ],
};
