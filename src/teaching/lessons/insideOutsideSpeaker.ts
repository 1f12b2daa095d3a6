import { freshBench, moveMic, setKind, setPhantom } from '../bench/edits';
import type { Lesson } from './lesson';

export const insideOutsideSpeaker: Lesson = {
  id: 'inside-outside-speaker',
  start: freshBench('kick', [16, 8], [84, 4]),
  controls: ['invert-b', 'phantom-b', 'kind-b'],
  steps: [
    {
      id: 'closer',
      done: (now, from) =>
        now.figures.polarity === 'same' && Math.abs(now.figures.pathCm) <= Math.abs(from.figures.pathCm) - 10,
      left: (bench) => moveMic(bench, 'b', { xCm: 60, yCm: 2 }),
    },
    { id: 'phantom-off', done: ({ bench }) => !bench.b.phantomOn, left: (bench) => setPhantom(bench, 'b', false) },
    {
      id: 'speaker',
      done: ({ bench }) => bench.b.kind === 'speaker' && !bench.b.phantomOn,
      left: (bench) => setKind(setPhantom(bench, 'b', false), 'b', 'speaker'),
    },
    {
      id: 'invert',
      // B's switch may have been set already: it is to be seen what it does to a speaker
      done: ({ bench, figures }, _from, before) =>
        bench.b.kind === 'speaker' && figures.polarity === 'same' && bench.b.inverted !== before.bench.b.inverted,
    },
  ],
};
