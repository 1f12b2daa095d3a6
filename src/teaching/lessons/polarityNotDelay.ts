import { freshBench, invert, moveMic } from '../bench/edits';
import { type Lesson, NEAR_CM } from './lesson';

export const polarityNotDelay: Lesson = {
  id: 'polarity-not-delay',
  // 16.2 cm further: 0.47 ms at 20 °C, first notch near 1 kHz
  start: freshBench('snare', [-8.3, 17], [18, 30]),
  controls: ['invert-b'],
  steps: [
    {
      id: 'invert',
      done: (now, _from, before) =>
        now.figures.polarity !== before.figures.polarity && now.figures.delayMs === before.figures.delayMs,
      left: (bench) => invert(bench, 'b'),
    },
    {
      id: 'move',
      done: (now, from) =>
        now.figures.polarity === from.figures.polarity && Math.abs(now.figures.pathCm - from.figures.pathCm) >= 5,
      left: (bench) => moveMic(bench, 'b', { xCm: 12, yCm: 22 }),
    },
    {
      id: 'both',
      done: ({ figures }) => figures.polarity === 'same' && Math.abs(figures.pathCm) <= NEAR_CM,
    },
  ],
};
