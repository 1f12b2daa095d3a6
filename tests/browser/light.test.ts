import { expect, inject, test } from 'vitest';
import { driftPercent } from '../bench/engine/memory';
import { makeGarbage, traceLoad } from '../bench/page/browserLoad';
import { measurePageMemory } from '../bench/page/browserMemory';
import { answerWhen, playScene } from '../support/page/screen';
import { withPage } from '../support/page/withPage';

test('the audio thread makes no garbage worth collecting, and the method would see it', async () => {
  // the browser cleans up what starting left about 30 s after it, at a time of its own: that is waited for
  const load = await traceLoad(inject('pageUrl'), {}, (page) => playScene(page, 'snare-top-bottom'), {
    cleanUpSeconds: 35,
    seconds: 12,
  });
  expect(load.calls).toBeGreaterThan(1000);
  expect(load.garbageCount).toBeLessThanOrEqual(2);
  const control = await traceLoad(inject('pageUrl'), { anyProgram: true }, makeGarbage, {
    settleSeconds: 1,
    seconds: 2,
  });
  expect(control.garbageCount / 2).toBeGreaterThan(10 * (load.garbageCount / 12));
  expect(control.garbageCount).toBeGreaterThan(3);
});

test('six minutes of readings leave the page’s memory where it was', async () => {
  // one look scatters by 2 or 3 %: the middle one of three at either end
  const page = await measurePageMemory(inject('pageUrl'), [2400, 3600, 4800, 12_000, 13_200, 14_400], 6);
  const megabytes = page.map((look) => look.megabytes);
  expect(driftPercent([middle(megabytes.slice(0, 3)), middle(megabytes.slice(3))])).toBeLessThan(5);
  expect(page.at(-1)?.domNodes).toBe(page[0]?.domNodes);
});

const middle = (three: readonly number[]): number => three.toSorted((p, q) => p - q)[1] as number;

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
