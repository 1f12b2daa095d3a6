/** The question before a pair is accepted against the plan: every press of it can be pressed, at every size. */
import { expect, test } from 'vitest';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { kitFile } from '../../support/readings/fourteenMics';

const SIZES = [
  [1440, 900],
  [1280, 720],
  [1120, 760],
  [820, 1180],
  [390, 844],
] as const;

test('accepting against the plan: “Do it in the mix”, “Back” and “Accept unchanged” can be pressed at every size', {
  timeout: 90_000,
}, async () => {
  await withPage({ viewport: { width: 1440, height: 900 } }, async ({ page }) => {
    const eight = sheetFrom(STARTS.find(({ id }) => id === 'eight') as (typeof STARTS)[number], 'eight', 'Eight');
    const bottom = eight.pairs.filter(({ id }) => id === 'snareTop-snareBottom');
    await press(page, 'open-sheet');
    await page.locator('#kit-file').setInputFiles(kitFile({ ...eight, pairs: bottom }));
    await page.locator('[data-command="begin-round"]').click();
    await page.locator('[data-command="play-demo"]:enabled').click();
    await page.locator('.round[data-sure="true"]').waitFor({ timeout: 45_000 });
    await page.keyboard.press('Enter');
    await page.locator('.leave-question').waitFor();
    for (const [width, height] of SIZES) {
      await page.setViewportSize({ width, height });
      for (const command of ['leave-accept', 'leave-for-mix', 'leave-back']) {
        // a trial press waits for the element itself to be hit at its middle
        await page.locator(`[data-command="${command}"]`).click({ trial: true, timeout: 3000 });
        const whole = await page.locator(`[data-command="${command}"]`).evaluate((it) => {
          const { left, right, top, bottom: low } = it.getBoundingClientRect();
          const at = [
            [left + 4, top + 4],
            [right - 4, low - 4],
          ] as const;
          return at.every(([x, y]) => it.contains(document.elementFromPoint(x, y)));
        });
        expect(whole, `${command} at ${width}×${height}, corner to corner`).toBe(true);
      }
    }
    await page.locator('[data-command="leave-back"]').click();
    await page.locator('.leave-question').waitFor({ state: 'detached' });
    await page.keyboard.press('Enter');
    await page.locator('[data-command="leave-for-mix"]').click();
    await page.locator('.page[data-page="kit"]').waitFor();
  });
});
