/** Try it: B inverted, moved and trimmed by hand on an example, beside what the plan says of the same. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { refusedByWcag } from '../support/page/axe';
import { answerWhen, playScene, press } from '../support/page/screen';
import { withPage } from '../support/page/withPage';

interface Shown {
  invertB: boolean;
  moveCm: number | null;
  delayMs: number | null;
  trimDb: number;
  lowDb: number;
  allDb: number;
  said: string;
}

const shown = (page: Page): Promise<Shown> =>
  page.locator('.try').evaluate((at) => {
    const { invertB, moveCm, delayMs, trimDb, lowDb, allDb } = (at as HTMLElement).dataset;
    const number = (text: string | undefined): number | null => (text ? Number(text) : null);
    return {
      invertB: invertB === 'true',
      moveCm: number(moveCm),
      delayMs: number(delayMs),
      trimDb: Number(trimDb),
      lowDb: Number(lowDb),
      allDb: Number(allDb),
      said: at.querySelector('#try-said')?.textContent ?? '',
    };
  });

/** As the plan's rows tell it: "+8", "−0.5", "±0". */
const figure = (text: string): number => Number(text.replace('−', '-').replace('±', ''));
const half = (db: number): number => Math.round(db * 2) / 2 + 0;

/** The snare's top and bottom, held: its figures stay. */
async function openTry(page: Page): Promise<void> {
  await playScene(page, 'snare-top-bottom');
  await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 5);
  await press(page, 'hold');
  await answerWhen(page, 'hold', (a) => a.held);
  await page.keyboard.press('j');
  await page.locator('.try-curve').waitFor();
}

test('each of the plan’s options, tried: the plan’s own figures, in the large line, in the table', async () => {
  await withPage({}, async ({ page }) => {
    await openTry(page);
    const options = page.locator('[data-command="try-option"]');
    const count = await options.count();
    expect(count).toBeGreaterThanOrEqual(3);
    for (let i = 0; i < count; i++) {
      const option = options.nth(i);
      const [name, low, all] = (await option
        .locator('> span')
        .evaluateAll((spans) => spans.map((span) => span.firstChild?.textContent ?? ''))) as [string, string, string];
      await option.click();
      expect(await option.getAttribute('aria-pressed')).toBe('true');
      const now = await shown(page);
      expect(half(now.lowDb), name).toBe(figure(low));
      expect(half(now.allDb), name).toBe(figure(all));
      expect(now.trimDb).toBe(0);
      if (name !== 'Leave it') expect(now.said).toContain(`: low octave ${low} dB, overall ${all} dB`);
      const rows = await page.locator('.try-bands tbody tr').allTextContents();
      expect(rows).toHaveLength(6);
      expect(rows[0]).toMatch(new RegExp(`${low.replace('+', '\\+')}$`));
    }
    await press(page, 'try-nothing');
    expect(await shown(page)).toMatchObject({ invertB: false, moveCm: null, lowDb: 0, allDb: 0 });
    expect(await refusedByWcag(page, 'try it')).toEqual([]);
  });
});

test('by keyboard alone: invert, move by millimetres and centimetres, type a figure, trim, and back', async () => {
  await withPage({}, async ({ page }) => {
    await openTry(page);
    const focusOn = async (wanted: string): Promise<void> => {
      for (let i = 0; i < 60; i++) {
        if (await page.evaluate((selector) => document.activeElement?.matches(selector) ?? false, wanted)) return;
        await page.keyboard.press('Tab');
      }
      throw new Error(`Tab never came to ${wanted}`);
    };
    await focusOn('[data-command="try-invert"]');
    await page.keyboard.press('Space');
    await focusOn('#try-move');
    for (const key of ['ArrowRight', 'ArrowRight', 'PageUp', 'Shift+ArrowRight', 'ArrowLeft'])
      await page.keyboard.press(key);
    expect(await shown(page)).toMatchObject({ invertB: true, moveCm: 2.1 });
    expect((await shown(page)).said).toContain('Invert B, 2.1 cm closer');
    expect(await page.locator('#try-move').getAttribute('aria-valuetext')).toBe('2.1 cm closer');
    await focusOn('#try-move-field');
    await page.keyboard.press('Control+A');
    await page.keyboard.type('-12,3');
    await page.keyboard.press('Enter');
    expect(await shown(page)).toMatchObject({ moveCm: -12.3 });
    await page.locator('#try-move-field').fill('far');
    await page.locator('#try-move-field').blur();
    expect(await page.locator('.try-setting').first().textContent()).toContain('Can’t use far');
    expect(await shown(page)).toMatchObject({ moveCm: -12.3 });
    const { allDb } = await shown(page);
    await page.locator('.try').focus();
    await focusOn('#try-trim');
    await page.keyboard.press('PageUp');
    await page.keyboard.press('ArrowDown');
    expect(await shown(page)).toMatchObject({ trimDb: 2.5 });
    expect((await shown(page)).allDb).toBeLessThan(allDb);
    await page.keyboard.press('Escape');
    await page.locator('.try').waitFor({ state: 'detached' });
    // what was tried is there again
    await page.keyboard.press('j');
    expect(await shown(page)).toMatchObject({ invertB: true, moveCm: -12.3, trimDb: 2.5 });
    // I inverts what is tried here, not the meter behind it
    await page.keyboard.press('i');
    expect(await shown(page)).toMatchObject({ invertB: false, moveCm: -12.3, trimDb: 2.5 });
    await page.keyboard.press('Escape');
    await answerWhen(page, 'the meter as it was', (a) => !a.invertB);
  });
});

test('the places along the move, and the curve: by press, by dragging, by keys', async () => {
  await withPage({}, async ({ page }) => {
    await openTry(page);
    await press(page, 'try-aligned');
    const aligned = await shown(page);
    // the scene's truth: top and bottom push opposite ways, B some 2.4 cm further
    expect(aligned.invertB).toBe(true);
    expect(Math.abs((aligned.moveCm as number) - 2.4)).toBeLessThan(0.5);
    await press(page, 'try-fullest-all');
    const fullest = await shown(page);
    expect(fullest.allDb).toBeGreaterThan(aligned.allDb - 0.31);
    const curve = page.locator('.try-curve');
    const marks = (await curve.getAttribute('data-marks'))?.split(' ') ?? [];
    expect(marks.map((mark) => mark.split(':')[0])).toEqual(['now', 'aligned', 'fullest', 'fullest', 'tried']);
    const canvas = curve.locator('.canvas');
    const box = (await canvas.boundingBox()) as { x: number; y: number; width: number; height: number };
    await page.mouse.move(box.x + box.width * 0.3, box.y + 100);
    await page.mouse.down();
    const { moveCm: pressed } = await shown(page);
    expect(pressed).toBeLessThan(-15);
    await page.mouse.move(box.x + box.width * 0.8, box.y + 100, { steps: 4 });
    await page.mouse.up();
    const { moveCm: dragged } = await shown(page);
    expect(dragged).toBeGreaterThan(15);
    // let go of, the pointer only reads out
    await page.mouse.move(box.x + box.width * 0.5, box.y + 120);
    expect((await shown(page)).moveCm).toBe(dragged);
    await canvas.focus();
    await page.keyboard.press('Home');
    expect((await shown(page)).moveCm).toBe(-60);
    expect(await canvas.getAttribute('aria-valuetext')).toMatch(/^60 cm back: .+ dB as it is, .+ dB inverted$/);
    const all = (await shown(page)).allDb;
    await page.getByLabel('3–10 kHz').check({ force: true });
    expect(await curve.getAttribute('data-band')).toBe('5');
    expect((await shown(page)).allDb).toBe(all);
  });
});

test('where nothing can be told yet it says why, and answers as soon as it can', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await page.keyboard.press('j');
    await page.locator('.try').waitFor();
    expect((await shown(page)).said).not.toContain('As it is now');
    expect(await page.locator('.try-curve').count()).toBe(0);
    await page.locator('.try-curve').waitFor({ timeout: 30_000 });
    expect((await shown(page)).said).toContain('As it is now');
  });
});
