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

test('on the teaching bench the sum follows the mic that is moved', async () => {
  await withPage({}, async ({ page }) => {
    await page.locator('[data-command="open-bench"]').click();
    const path = page.locator('[data-figure="path"] [data-command="sum"]');
    await path.click();
    const worked = page.locator('.sums-worked');
    const before = await worked.textContent();
    expect(before).toMatch(/cm − .* cm = [+−]/);
    await page.locator('[data-mic="b"]').first().focus();
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => worked.textContent()).not.toBe(before);
    await page.keyboard.press('Escape');
    await expect.poll(() => page.locator('.sums').count()).toBe(0);
  });
});

test('on Try it the sum is of what is tried, and Esc closes it first', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    await page.locator('[data-command="try"]').first().click();
    await page.locator('.try').waitFor();
    await page.keyboard.press('q');
    await page.locator('.sums').waitFor();
    expect(await page.locator('.sums').getAttribute('data-sum')).toBe('try-shift');
    await page.selectOption('#sums-number', 'try-1');
    expect(await page.locator('.sums-worked').textContent()).toMatch(/gain = /);
    const { violations } = await axe(page, 'the sum of a try');
    expect(linesOf('the sum of a try', violations)).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await page.locator('.sums').count()).toBe(0);
    expect(await page.locator('.try').count()).toBe(1);
  });
});
