/** Wherever a mic is put, it is to be seen: its body, its letter, the length of its path. */
import { expect, test } from 'vitest';
import { DRUMS } from '../../../src/teaching/bench/drums';
import { moveMic, startBench } from '../../../src/teaching/bench/edits';
import type { DrumId } from '../../../src/teaching/bench/model';
import { bodyOf, lengthPlace, letterOf, onBody } from '../../../src/ui/bench/drawn/micPlaces';
import { at, scaleOf } from '../../../src/ui/bench/drawn/scale';

/** drawings as they are at 1280×720, 820×1180 and 390×844, px */
const SIZES = [
  { width: 634, height: 380 },
  { width: 788, height: 377 },
  { width: 371, height: 296 },
];
/** half a stroke, and in a corner a little of the shortest body, px */
const CUT = 4;

test.each(['snare', 'kick', 'kit'] as const)('%s', (drum: DrumId) => {
  for (const size of SIZES) {
    const scale = scaleOf(drum, size);
    const isIn = (x: number, y: number, cut: number): boolean =>
      x >= -cut && y >= -cut && x <= size.width + cut && y <= size.height + cut;
    for (const { leftCm, rightCm, bottomCm, topCm } of DRUMS[drum].rooms) {
      for (let i = 0; i <= 12; i++) {
        for (let j = 0; j <= 12; j++) {
          const spot = { xCm: leftCm + ((rightCm - leftCm) * i) / 12, yCm: bottomCm + ((topCm - bottomCm) * j) / 12 };
          const bench = moveMic(startBench(drum), 'b', spot);
          const { long, wide, turn } = bodyOf(bench, 'b', scale);
          const grille = at(scale, bench.b.grille);
          const [dx, dy] = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
          for (const side of [-wide / 2, wide / 2]) {
            const [x, y] = [grille.x + long * dx - side * dy, grille.y + long * dy + side * dx];
            expect(isIn(x, y, CUT), `body at ${JSON.stringify(spot)}, ${size.width} px: ${x}, ${y}`).toBe(true);
          }
          for (const { x, y } of [letterOf(bench, 'b', scale), lengthPlace(bench, 'b', scale)])
            expect(isIn(x, y, 0)).toBe(true);
        }
      }
    }
  }
});

test('the length of a short path beside a mic that stands at the edge, and not on it', () => {
  // as it is at 1280×720 with the sound's row open
  const scale = scaleOf('snare', { width: 634, height: 290 });
  const bench = startBench('snare');
  for (const mic of ['a', 'b'] as const) expect(onBody(bench, mic, scale, lengthPlace(bench, mic, scale))).toBe(false);
});
