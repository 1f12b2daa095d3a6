/** Pages beside the meter in every look: WCAG 2.2 A and AA by axe-core in the light, in the dark and in forced colours; what a browser that darkens pages leaves of them. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { standing, takeOn } from '../support/look/look';
import { refusedByWcag } from '../support/page/axe';
import { answerWhen, playScene, press, unfold } from '../support/page/screen';
import { withPage } from '../support/page/withPage';
import { fourteenMics, kitFile } from '../support/readings/fourteenMics';

const LOOKS = ['light', 'dark', 'forced colours'] as const;

/** What axe-core refuses of the page as it stands, in one look after the other. */
async function refused(page: Page, where: string): Promise<string[]> {
  const all: string[] = [];
  for (const look of LOOKS) {
    const end = await takeOn(page, look);
    all.push(...(await refusedByWcag(page, `${where}, ${look}`)));
    await end();
  }
  return all;
}

test('the meter’s pages: why, try it, the big display, voice and tone, help, a device to connect', async () => {
  await withPage({}, async ({ page }) => {
    await press(page, 'connect');
    const all = await refused(page, 'connect');
    await press(page, 'leave');
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 4);
    await press(page, 'hold');
    await press(page, 'why');
    await page.locator('.why').first().waitFor();
    all.push(...(await refused(page, 'why')));
    await press(page, 'back');
    await press(page, 'try');
    await page.locator('.try-curve').first().waitFor();
    await page.locator('[data-command="try-option"]').first().click();
    all.push(...(await refused(page, 'try it')));
    await press(page, 'back');
    await press(page, 'help');
    await page.locator('dialog[open]').waitFor();
    all.push(...(await refused(page, 'help')));
    await press(page, 'close-help');
    await press(page, 'call-out');
    all.push(...(await refused(page, 'big display')));
    await press(page, 'voice-and-tone');
    await page.locator('.sound-panel').waitFor();
    all.push(...(await refused(page, 'voice and tone')));
    expect(all).toEqual([]);
  });
});

test('the kit’s pages: the drawing with its lists, the hand-over, a round being patched and measured', async () => {
  await withPage({ viewport: { width: 1440, height: 900 } }, async ({ page }) => {
    await press(page, 'open-sheet');
    await page.locator('#kit-file').setInputFiles(kitFile(fourteenMics()));
    await unfold(page, 'pairs', 'mics', 'together', 'about');
    const all = await refused(page, 'kit');
    await press(page, 'hand-over');
    await page.locator('.ho-page').waitFor();
    all.push(...(await refused(page, 'hand-over')));
    await press(page, 'kit');
    await press(page, 'check-again');
    await page.locator('[data-command="play-demo"]:enabled').click();
    await page.locator('.round').waitFor();
    all.push(...(await refused(page, 'round, begun')));
    await page.locator('.round[data-sure="true"]').waitFor({ timeout: 45_000 });
    await press(page, 'hold');
    all.push(...(await refused(page, 'round')));
    expect(all).toEqual([]);
  });
});

test('a browser that darkens all pages: the hand-over’s lines stand out, and who chooses the light theme gets a light page', async () => {
  await withPage({ viewport: { width: 1440, height: 900 } }, async ({ page, browser }) => {
    const reader = await (await browser.newContext()).newPage();
    await press(page, 'open-sheet');
    await page.locator('#kit-file').setInputFiles(kitFile(fourteenMics()));
    await page.locator('.pair-row').first().waitFor({ state: 'attached' });
    await press(page, 'hand-over');
    const end = await takeOn(page, 'forced dark');
    for (const theme of ['auto', 'light']) {
      if (theme === 'light') await press(page, 'lights');
      await page.waitForTimeout(200);
      for (const drawn of ['.ho-drawing svg', '.ho-picture svg']) {
        const seen = await standing(reader, await page.locator(drawn).first().screenshot());
        expect(seen.share, `${theme}: ${drawn}, ${JSON.stringify(seen)}`).toBeGreaterThan(0.02);
      }
      const ground = await groundOf(reader, await page.locator('.head').screenshot());
      if (theme === 'auto') expect(ground).toBeLessThan(60);
      else expect(ground).toBeGreaterThan(200);
    }
    await end();
  });
});

/** The least of red, green and blue of the picture's first point, 0–255. */
const groundOf = (reader: Page, png: Buffer): Promise<number> =>
  reader.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
    pen.drawImage(image, 0, 0);
    return Math.min(...pen.getImageData(2, 2, 1, 1).data.slice(0, 3));
  }, png.toString('base64'));
