/** How it comes about: the sum behind each number of the page, by key and by press on its name. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { writeWav } from '../../src/files/writeWav';
import { axe, linesOf } from '../support/page/axe';
import { answerWhen, playScene, press } from '../support/page/screen';
import { withPage } from '../support/page/withPage';
import { CAPTURE_RATE } from '../support/sound/signals';
import { struckPair } from '../support/sound/struckPair';

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
    expect(await worked()).toMatch(/^L = 10 · lg\(2 · \(1 [−+] 0\.\d+\)\) = [−+]\d/);
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

test('on the kit sheet a pair’s name opens what its row says; the hand-over has one press, and none on the paper', async () => {
  await withPage({}, async ({ page }) => {
    await press(page, 'open-sheet');
    await press(page, 'example-kit');
    await page.locator('#pairs summary').click();
    const row = page.locator('[data-pair="snare-overhead"]');
    expect(await row.textContent()).toContain('B 95 cm further');
    await row.locator('[data-command="sum"]').click();
    const panel = page.locator('.sums');
    await panel.waitFor();
    expect(await page.locator('.sums-of').textContent()).toBe('Snare top & Overhead, snare side');
    expect(await page.locator('.sums-worked').textContent()).toBe('+2.762 ms · 343.2 m/s = +94.80 cm');
    const { violations } = await axe(page, 'a sum of the sheet');
    expect(linesOf('a sum of the sheet', violations)).toEqual([]);
    await page.keyboard.press('Escape');
    expect(await panel.count()).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.closest('[data-pair]')?.getAttribute('data-pair'))).toBe(
      'snare-overhead',
    );

    await press(page, 'hand-over');
    await page.locator('.ho-page').waitFor();
    await page.keyboard.press('q');
    await panel.waitFor();
    await page.selectOption('#sums-number', { label: 'Snare top & Overhead, snare side: Gain overall' });
    expect(await page.locator('.sums-worked').textContent()).toContain('shown as +5.5 dB');
    expect(await page.locator('.ho-page button').count()).toBe(0);
    await page.emulateMedia({ media: 'print' });
    expect(await panel.isVisible()).toBe(false);
  });
});

test('in a take the path of a pair opens its sum', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'take-'));
  const { a, b } = struckPair({ sampleRate: CAPTURE_RATE, hits: 8, delaySamples: 40, polarity: 'inverted' });
  writeFileSync(join(folder, 'Snare.wav'), writeWav([a], CAPTURE_RATE, 's24'));
  writeFileSync(join(folder, 'OH.wav'), writeWav([b], CAPTURE_RATE, 's24'));
  await withPage({}, async ({ page }) => {
    await page.locator('[data-command="open-take"]').click();
    await page.locator('#take-folder').setInputFiles(folder);
    await page.locator('[data-take="read"]').waitFor();
    await page.locator('[data-drum="snare"]').click();
    const number = page.locator('.take-pairs [data-command="sum"]');
    expect(await number.textContent()).toMatch(/^31 cm further · 0\.9\d ms$/);
    await number.click();
    expect(await page.locator('.sums-worked').textContent()).toMatch(/^\+0\.9\d\d ms · 343\.2 m\/s = \+31\.\d\d cm$/);
    await page.selectOption('#sums-number', { label: 'Gain overall' });
    expect(await page.locator('.sums-worked').textContent()).toMatch(/shown as \+[\d.]+ dB$/);
    const { violations } = await axe(page, 'a sum of a take');
    expect(linesOf('a sum of a take', violations)).toEqual([]);
    await page.keyboard.press('Escape');
    await expect.poll(() => page.locator('.sums').count()).toBe(0);
    await page.keyboard.press('q');
    await expect.poll(() => page.locator('.sums').count()).toBe(1);
  });
  rmSync(folder, { recursive: true, force: true });
});
