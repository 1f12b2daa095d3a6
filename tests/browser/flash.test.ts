/** WCAG 2.3.1: nothing on the page flashes more than three times in any one second, however fast the drum is hit. */
import { setTimeout as sleep } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { openInterface } from '../support/page/interface';
import { answerWhen } from '../support/page/screen';
import { withPage } from '../support/page/withPage';
import { captureWav, hits, later } from '../support/sound/signals';

test('sixteenths at 136 bpm: the hit mark flashes at most three times in any second', async () => {
  const a = hits(8, 0.11, 8);
  const b = later(a, 20, 0.8);
  const floor = hits(8, 20, 9);
  for (let i = 0; i < b.length; i++) b[i] += floor[i];
  await withPage({ captureWav: captureWav('sixteenths', a, b) }, async ({ page }) => {
    await openInterface(page);
    await page.evaluate(() => {
      const flashes: number[] = [];
      Object.assign(globalThis, { flashes });
      // an animation that starts, wherever it is on the page, is a flash
      document.addEventListener('animationstart', () => flashes.push(performance.now()), true);
    });
    const first = await answerWhen(page, 'hits', (answer) => answer.hits >= 4);
    await sleep(6000);
    const last = await answerWhen(page, 'more hits', (answer) => answer.hits > first.hits);
    // the case must be one: more hits than flashes are allowed
    expect(last.hits - first.hits).toBeGreaterThan(24);
    const flashes = await page.evaluate(() => (globalThis as unknown as { flashes: number[] }).flashes);
    expect(flashes.length).toBeGreaterThan(6);
    const most = Math.max(...flashes.map((start) => flashes.filter((at) => at >= start && at < start + 1000).length));
    expect(most).toBeLessThanOrEqual(3);
  });
});
