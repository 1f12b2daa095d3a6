/** How it comes about: the sum behind each number of the meter, by key and by press on its name. */
import { expect, test } from 'vitest';
import { axe, linesOf } from '../support/page/axe';
import { answerWhen, playScene, press } from '../support/page/screen';
import { withPage } from '../support/page/withPage';

test('a number’s sum is opened by its name or by key, says what the screen says, and goes again', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    const { pathCm } = await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    const panel = page.locator('.sums');
    const worked = (): Promise<string> => page.locator('.sums-worked').evaluate((it) => it.textContent);
    await page.locator('[data-command="sum"][data-sum="path"]').click();
    await panel.waitFor();
    expect(await panel.getAttribute('data-sum')).toBe('path');
    const shown = Number((await worked()).replace('−', '-').match(/= ([+-][\d.]+) cm/)?.[1]);
    expect(Math.abs(shown - (pathCm as number))).toBeLessThan(0.3);

    // the choice stays while readings come
    await page.selectOption('#sums-number', 'low-octave');
    const { hits } = await answerWhen(page, 'a hit', (a) => a.hits > 0);
    await answerWhen(page, 'more hits', (a) => a.hits > hits + 1);
    expect(await page.locator('#sums-number').inputValue()).toBe('low-octave');
    expect(await worked()).toMatch(/^L = 10 · lg\(1 [−+] 0\.\d+\) = [−+]\d/);
    const { violations } = await axe(page, 'how it comes about');
    expect(linesOf('how it comes about', violations)).toEqual([]);

    await page.keyboard.press('Escape');
    expect(await panel.count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.getAttribute('data-sum'))).toBe('path');
    await page.keyboard.press('q');
    await panel.waitFor();
    await press(page, 'close-sums');
    expect(await panel.count()).toBe(0);
  });
});
