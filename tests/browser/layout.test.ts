/** The sheet on a phone, a tablet and a desk: nothing runs off sideways, the answer comes first, the call-out fits. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { writeWav } from '../../src/files/writeWav';
import type { KitSheet } from '../../src/sheet/document/model';
import { answerWhen, playScene, press } from '../support/page/screen';
import { withPage } from '../support/page/withPage';
import { BETWEEN, twoDrums } from '../support/sound/twoDrums';

const SCREENS = [
  { what: 'phone', width: 390, height: 844 },
  { what: 'tablet', width: 820, height: 1180 },
  { what: 'desk', width: 1280, height: 800 },
  { what: 'wide', width: 1920, height: 1080 },
];

/** How far the page, and any control or text on it, sticks out to the right, px. */
function overhang(page: Page): Promise<number> {
  return page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    let most = document.documentElement.scrollWidth - width;
    for (const element of document.querySelectorAll<HTMLElement>('button, select, h1, p, figcaption')) {
      if (element.checkVisibility({ visibilityProperty: true }) && !element.closest('.unseen')) {
        most = Math.max(most, element.getBoundingClientRect().right - width);
      }
    }
    return most;
  });
}

test.for(SCREENS)('$what: the first page, a running scene and the call-out fit', async ({ width, height }) => {
  await withPage({ viewport: { width, height } }, async ({ page }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    expect(await overhang(page), 'first page').toBeLessThanOrEqual(1);

    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    expect(await overhang(page), 'running').toBeLessThanOrEqual(1);
    const advice = await page.locator('#advice').boundingBox();
    expect(advice && advice.y + advice.height, 'the answer is on the first screenful').toBeLessThanOrEqual(height);

    await press(page, 'call-out');
    const text = page.locator('.call-out .call-text');
    expect(((await text.textContent()) ?? '').trim()).toMatch(/^[A-Z].{3,58}[^.]$/);
    const box = await text.boundingBox();
    expect(box && box.x >= 0 && box.x + box.width <= width + 1, 'the call fits across').toBe(true);
    expect(box && box.y >= 0 && box.y + box.height <= height, 'the call fits down').toBe(true);
  });
});

test.for(SCREENS)('$what: the teaching bench fits across, in every lesson', async ({ width, height }) => {
  await withPage({ viewport: { width, height } }, async ({ page }) => {
    await page.locator('[data-command="open-bench"]').click();
    const lesson = page.locator('[data-control="lesson"]');
    const ids = await lesson.locator('option').evaluateAll((all) => all.map((one) => (one as HTMLOptionElement).value));
    for (const id of ids) {
      await lesson.selectOption(id);
      expect(await overhang(page), id).toBeLessThanOrEqual(1);
    }
  });
});

/** What keeps to one line in a call, the longest of each size; the largest is for calls without a number. */
const CALLS = [
  { size: 'huge', number: 'Waiting' },
  { size: 'large', number: '100 centimetres' },
  { size: 'mid', number: '29.12 milliseconds' },
  { size: 'small', number: '29.12 milliseconds' },
];

test.for([320, 390])('a number of a call keeps clear of both edges of a phone: %i px', async (width) => {
  await withPage({ viewport: { width, height: 844 } }, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    await press(page, 'call-out');
    for (const { size, number } of CALLS) {
      const edges = await page.locator('.call-out .call-text').evaluate(
        (text, [size, number]) => {
          const call = text.cloneNode() as HTMLElement;
          call.className = `call-text ${size}`;
          const run = document.createElement('span');
          run.className = 'unbroken';
          run.textContent = number as string;
          call.append(run);
          text.before(call);
          const { left, right } = run.getBoundingClientRect();
          call.remove();
          return [left, right];
        },
        [size, number],
      );
      expect(edges[0], `${size}: left, ${edges}`).toBeGreaterThanOrEqual(16);
      expect(edges[1], `${size}: right, ${edges}`).toBeLessThanOrEqual(width - 16);
    }
  });
});

test('the call-out names the value before, once the pair was changed', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    await press(page, 'swap');
    await answerWhen(page, 'the swapped reading', (a) => a.swapped && a.state === 'measured');
    await press(page, 'call-out');
    const previous = page.locator('.call-out[data-previous-path-cm]:not([data-previous-path-cm=""])');
    await previous.waitFor();
    const before = Number(await previous.getAttribute('data-previous-path-cm'));
    expect(Math.abs(before - 4), `${before} cm before the swap, 4 cm true`).toBeLessThanOrEqual(0.5);
  });
});

test('on a phone the source is named and can be changed, and the levels stand right below the answer', async () => {
  await withPage({ viewport: { width: 390, height: 844 } }, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    expect(await page.locator('.source-line #scene').isVisible()).toBe(true);
    const top = async (what: string): Promise<number> => (await page.locator(what).boundingBox())?.y ?? Number.NaN;
    const order = [await top('#answer'), await top('.levels'), await top('.figure.sum'), await top('.numbers dl')];
    expect(order).toEqual([...order].sort((x, y) => x - y));
  });
});

test.each([1120, 1280, 1440])('while a recording plays every control is in sight: %i px', async (width) => {
  await withPage({ viewport: { width, height: 800 } }, async ({ page }) => {
    const file = new URL('../../samples/kit/snare-overhead.wav', import.meta.url).pathname;
    await page.locator('#recording-files').first().setInputFiles(file);
    await page.locator('[data-command="play"]:enabled').click();
    await page.locator('#hear').waitFor();
    const right = await page
      .locator('.foot *')
      .evaluateAll((all) => Math.max(...all.map((one) => one.getBoundingClientRect().right)));
    expect(right).toBeLessThanOrEqual(width);
    expect(await overhang(page)).toBeLessThanOrEqual(1);
  });
});

test('inverting moves no control', async () => {
  await withPage({ viewport: { width: 1440, height: 900 } }, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    const places = (): Promise<number[]> =>
      page.evaluate(() => {
        const foot = document.querySelector('.foot')?.getBoundingClientRect().top ?? Number.NaN;
        return [...document.querySelectorAll('.controls > *')].flatMap((control) => {
          const box = control.getBoundingClientRect();
          return [Math.round(box.left), Math.round(box.top - foot), Math.round(box.width)];
        });
      });
    // one row
    expect(await page.locator('.foot').evaluate((foot) => foot.clientHeight)).toBeLessThan(60);
    const before = await places();
    await press(page, 'invert-b');
    await answerWhen(page, 'B inverted', (a) => a.invertB);
    expect(await places()).toEqual(before);
  });
});

test.each([390, 820, 1280])(
  'the kit page and its hand-over with names of 80 letters keep to the screen: %i px',
  async (width) => {
    await withPage({ viewport: { width, height: 800 } }, async ({ page }) => {
      await page.locator('[data-command="open-sheet"]').click();
      const example = readFileSync(new URL('../../samples/kit/example-kit.json', import.meta.url), 'utf8');
      for (const [i, name] of ['Hall '.repeat(16).trim(), 'W'.repeat(80)].entries()) {
        const file = JSON.parse(example) as { kit: KitSheet };
        file.kit.id = `long-${i}`;
        file.kit.name = name;
        file.kit.microphones = file.kit.microphones.map((one) => ({ ...one, label: name }));
        if (i > 0) await page.locator('[data-command="close-kit"]').click();
        const buffer = Buffer.from(JSON.stringify(file));
        await page.locator('#kit-file').setInputFiles({ name: 'kit.json', mimeType: 'application/json', buffer });
        await page.waitForFunction((it) => document.querySelector<HTMLInputElement>('#kit-name')?.value === it, name);
        const over = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        expect(await over(), `kit, ${name}`).toBeLessThanOrEqual(0);
        await page.locator('[data-command="hand-over"]').click();
        await page.locator('.ho-page').waitFor();
        expect(await over(), `hand-over, ${name}`).toBeLessThanOrEqual(0);
        await page.locator('main [data-command="kit"]').click();
      }
    });
  },
);

test('on a phone the drums to choose from are in sight where one is to be chosen; a list that is cut off says how many follow', async () => {
  await withPage({ viewport: { width: 390, height: 844 } }, async ({ page }) => {
    const { a, b } = twoDrums(44100, 6, BETWEEN);
    const buffer = Buffer.from(writeWav([a, b], 44100, 's24'));
    await page.locator('#recording-files').first().setInputFiles({ name: 'two.wav', mimeType: 'audio/wav', buffer });
    await page.locator('[data-command="analyse"]:enabled').click();
    await answerWhen(page, 'the question', (a) => a.reason === 'which-drum');
    const box = await page.locator('.numbers .drums').boundingBox();
    // above the presses under the thumb
    expect(box?.y).toBeLessThan(600);
    const list = page.locator('.numbers .drums');
    expect(await list.evaluate((one) => one.scrollHeight - one.clientHeight)).toBeLessThanOrEqual(1);
    expect(await page.locator('.more-below').textContent()).toBe('');
    // made too low for it
    await list.evaluate((one: HTMLElement) => {
      one.style.maxHeight = '60px';
    });
    await page.locator('.more-below span', { hasText: /^\d more below/ }).waitFor();
    await list.evaluate((one) => one.scrollTo(0, one.scrollHeight));
    await page.locator('.more-below span').waitFor({ state: 'detached' });
  });
});
