import { expect, inject, test } from 'vitest';
import { makeGarbage, traceLoad } from '../bench/browserLoad';
import { measurePageMemory } from '../bench/browserMemory';
import { driftPercent } from '../bench/memory';
import { answerWhen, playScene } from '../support/screen';
import { withPage } from '../support/withPage';

test('the audio thread makes no garbage worth collecting, and the method would see it', async () => {
  const load = await traceLoad(inject('pageUrl'), {}, (page) => playScene(page, 'snare-top-bottom'), { seconds: 12 });
  expect(load.calls).toBeGreaterThan(1000);
  // the engine of the browser cleans up once after the start, at a time of its own; the bench waits for that and counts 30 s
  expect(load.garbageCount).toBeLessThanOrEqual(2);
  const control = await traceLoad(inject('pageUrl'), {}, makeGarbage, { settleSeconds: 1, seconds: 2 });
  expect(control.garbageCount / 2).toBeGreaterThan(10 * (load.garbageCount / 12));
  expect(control.garbageCount).toBeGreaterThan(3);
});

test('six minutes of readings leave the page’s memory where it was', async () => {
  const page = await measurePageMemory(inject('pageUrl'), [2400, 14_400], 6);
  expect(driftPercent(page.map(({ megabytes }) => megabytes))).toBeLessThan(5);
  expect(page[1]?.domNodes).toBe(page[0]?.domNodes);
});

test('every plot is drawn', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    const answer = await answerWhen(page, 'a reading', ({ state, hits }) => state === 'measured' && hits > 5);
    expect(answer.problem).toBeNull();
    // share of the columns that hold ink; a plot that failed has no canvas or an empty one
    const columns = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLCanvasElement>('.canvas canvas')].map((canvas) => {
        const { width, height } = canvas;
        const { data } = (canvas.getContext('2d') as CanvasRenderingContext2D).getImageData(0, 0, width, height);
        let inked = 0;
        for (let x = 0; x < width; x++) {
          let alpha = 0;
          for (let y = 0; y < height; y++) alpha += data[4 * (y * width + x) + 3] as number;
          if (alpha > 255) inked++;
        }
        return inked / width;
      }),
    );
    expect(columns.length).toBe(3);
    for (const share of columns) expect(share).toBeGreaterThan(0.5);
  });
});
