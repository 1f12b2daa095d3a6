/** The plots: what they show unasked, what comes on request, and what they say of one place, by pointer and by key. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { answerWhen, playScene, press } from '../support/page/screen';
import { withPage } from '../support/page/withPage';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const slot = async (page: Page, figure: string): Promise<string> =>
  ((await page.locator(`.figure.${figure} .slot`).first().textContent()) ?? '').trim();

/** Where every plot, caption and control lies, px. */
const places = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [
      ...document.querySelectorAll(
        '.figure, .figure figcaption, .figure figcaption > *, .canvas, .slot, .controls > *',
      ),
    ].map((one) => {
      const { left, top, width, height } = one.getBoundingClientRect();
      return `${one.className}: ${[left, top, width, height].map((px) => px.toFixed(1)).join(' ')}`;
    }),
  );

/** Texts beside the plots that their place cuts off. */
const cutOff = (page: Page): Promise<string[]> =>
  page
    .locator('.slot')
    .evaluateAll((all) =>
      all
        .filter((one) => one.scrollWidth > one.clientWidth + 1 || one.scrollHeight > one.clientHeight + 1)
        .map((one) => one.textContent ?? ''),
    );

async function measured(page: Page, scene: string, hits = 6): Promise<void> {
  await playScene(page, scene);
  await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hits >= hits);
  await page.waitForFunction(() => Number(document.querySelector<HTMLElement>('.arrival')?.dataset.pushes) >= 4);
}

test('the drawing of the two pushes goes the way that A’s went, as the page that tells why says', async () => {
  await withPage({}, async ({ page }) => {
    await measured(page, 'snare-top-bottom');
    // a snare's top head goes away from its microphone, the bottom head towards its own
    const ways = await page.locator('.arrival').evaluate((one) => [one.dataset.aWay, one.dataset.bWay]);
    expect(ways).toEqual(['-1', '1']);
    const rises = (name: string): Promise<boolean[]> =>
      page
        .locator(`.${name} path`)
        .evaluateAll((all) =>
          all
            .filter((path) => path.getAttribute('class')?.startsWith('mark-fill'))
            .map((path) => / q\d+ -/.test(path.getAttribute('d') ?? '')),
        );
    expect(await rises('push-mark')).toEqual([false, true]);
    expect(await rises('mini-mark')).toEqual([false, true]);
    await press(page, 'hold');
    await answerWhen(page, 'hold', (a) => a.held);
    await press(page, 'why');
    await page.locator('.why-hit .why-a[data-push="down"]').first().waitFor();
    expect(await page.locator('.why-facts').textContent()).toMatch(/A: first push down.*B: first push up/s);
    await page.keyboard.press('Escape');
    // its pictures come back, although nothing else does while it is held
    await page.waitForFunction(() => Number(document.querySelector<HTMLElement>('.arrival')?.dataset.pushes) >= 4);
    expect(await rises('push-mark')).toEqual([false, true]);
  });
});

test('every plot says what is at a place, by pointer and by key, and nothing moves for it', async () => {
  await withPage({ viewport: { width: 1440, height: 900 } }, async ({ page }) => {
    await measured(page, 'snare-top-bottom', 17);
    await press(page, 'hold');
    await answerWhen(page, 'hold', (a) => a.held);
    await page.mouse.move(5, 5);
    const before = await places(page);
    const beside = await slot(page, 'arrival');
    const said = {
      sum: /^\d+(\.\d)? k?Hz: [+−]\d+\.\d dB now, [+−]\d+\.\d dB after$/,
      // held at once after a hit, that one has no value yet
      trace: /^−\d+\.\d s: ([+−]\d\.\d\d|no value)(, hit \d+ ([+−]\d\.\d\d|no value))?$/,
      arrival: /^[+−]?\d\.\d\d ms, [+−]?\d+(\.\d)? cm(, hit \d+)?$/,
    };
    const share = { sum: 0.25, trace: 0.9, arrival: 0.2 };
    for (const [figure, pattern] of Object.entries(said)) {
      const canvas = page.locator(`.${figure} .canvas`);
      const box = await canvas.boundingBox();
      if (!box) throw new Error(`no ${figure}`);
      await page.mouse.move(box.x + box.width * share[figure as keyof typeof share], box.y + box.height / 2);
      await expect.poll(() => slot(page, figure)).toMatch(pattern);
      expect(await canvas.locator('.cross').isVisible()).toBe(true);
      expect(await places(page), figure).toEqual(before);
      await page.mouse.move(5, 5);
      expect(await canvas.locator('.cross').isVisible()).toBe(false);

      await canvas.focus();
      await page.keyboard.press('ArrowLeft');
      const first = await canvas.getAttribute('aria-valuetext');
      await page.keyboard.press(figure === 'sum' ? 'ArrowRight' : 'ArrowLeft');
      const next = await canvas.getAttribute('aria-valuetext');
      expect(next, figure).toMatch(pattern);
      expect(next, figure).not.toBe(first);
      // the trace moves on under the place
      const place = (said: string | null): string | undefined =>
        figure === 'trace' ? said?.split(':')[0] : (said ?? '');
      expect(place(await slot(page, figure))).toBe(place(next));
      expect(await places(page), figure).toEqual(before);
      await page.keyboard.press('Escape');
      expect(await canvas.locator('.cross').isVisible()).toBe(false);
    }
    expect(await slot(page, 'arrival')).toBe(beside);
    // the delay that was found is the nearest hit's
    await page.locator('.arrival .canvas').focus();
    await page.keyboard.press('ArrowRight');
    expect(await slot(page, 'arrival')).toMatch(/^\+0\.\d\d ms, \+2\.\d cm, hit \d+$/);
    await page.evaluate(axeSource);
    const found = (await page.evaluate('axe.run(document)')) as AxeResults;
    expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`)).toEqual([]);
  });
});

test('the comb is there unasked where it fits, else a line says why not; the curve comes on request', async () => {
  await withPage({}, async ({ page }) => {
    await measured(page, 'floor-tom-overhead');
    const sum = page.locator('.sum');
    expect(await sum.getAttribute('data-comb')).toBe('true');
    const fit = Number(await sum.getAttribute('data-comb-fit'));
    expect(fit).toBeGreaterThan(0.67);
    // 82 cm: half a wave longer at 209 Hz, give or take 2 %
    const notch = Number((await sum.getAttribute('data-notches-hz'))?.split(' ')[0]);
    expect(Math.abs(notch / 209 - 1)).toBeLessThan(0.02);
    expect(await slot(page, 'sum')).toMatch(/^Comb: fits \d\d % of the line within 3 dB\. Notches: 2\d\d Hz, /);
    await page.keyboard.press('g');
    expect(await sum.getAttribute('data-comb')).toBe('false');
  });
  await withPage({}, async ({ page }) => {
    await measured(page, 'snare-top-bottom');
    const sum = page.locator('.sum');
    expect(await sum.getAttribute('data-comb')).toBe('false');
    expect(await slot(page, 'sum')).toMatch(/^Comb: fits only .* \(unlike mics, reflections\)\.$/);
    await page.keyboard.press('g');
    expect(await sum.getAttribute('data-comb')).toBe('true');
    expect(await slot(page, 'sum')).toMatch(/Notches: 1\d(\.\d)? kHz$/);
    await page.keyboard.press('y');
    expect(await page.locator('[data-command="curve"]').isChecked()).toBe(true);
    await page.locator('.arrival .canvas').focus();
    await page.keyboard.press('ArrowRight');
    expect(await slot(page, 'arrival')).toMatch(/ms, .* cm: [+−]\d\.\d\d$/);
    await page.keyboard.press('Escape');
    await page.keyboard.press('y');
    expect(await page.locator('[data-command="pushes"]').isChecked()).toBe(true);
  });
});

test('inverting B in the meter changes which line is now, and not what is gained', async () => {
  await withPage({}, async ({ page }) => {
    await measured(page, 'snare-top-bottom', 9);
    const gain = async (): Promise<number> => Number(await page.locator('.sum').getAttribute('data-gain-db'));
    const before = await gain();
    expect(before).toBeGreaterThan(5);
    await press(page, 'invert-b');
    await answerWhen(page, 'B inverted', (a) => a.invertB && a.state === 'measured');
    expect(await page.locator('.sum .legends').textContent()).toContain('not inverted');
    expect(Math.abs((await gain()) - before)).toBeLessThan(1);
    // A's way stays, B's is turned over
    await expect
      .poll(() => page.locator('.arrival').evaluate((one) => [one.dataset.aWay, one.dataset.bWay]))
      .toEqual(['-1', '-1']);
  });
});

test.each([
  [1440, 900, 'snare-top-bottom'],
  [1280, 720, 'snare-top-bottom'],
  [1024, 768, 'snare-overhead'],
  [820, 1180, 'kick-both-sides'],
  [390, 844, 'snare-top-bottom'],
  [390, 844, 'floor-tom-overhead'],
] as const)('what is said beside the plots fits its place: %i × %i, %s', async (width, height, scene) => {
  await withPage({ viewport: { width, height } }, async ({ page }) => {
    await measured(page, scene);
    expect(await cutOff(page)).toEqual([]);
    const plots = (): Promise<string[]> =>
      places(page).then((all) => all.filter((one) => /^(canvas|figure )/.test(one)));
    const before = await plots();
    await page.keyboard.press('g');
    await page.keyboard.press('y');
    expect(await cutOff(page)).toEqual([]);
    expect(await plots()).toEqual(before);
    for (const figure of ['sum', 'trace', 'arrival']) {
      await page.locator(`.${figure} .canvas`).focus();
      await page.keyboard.press('Home');
      expect(await cutOff(page), figure).toEqual([]);
      await page.keyboard.press('PageUp');
      expect(await cutOff(page), figure).toEqual([]);
      await page.keyboard.press('Escape');
    }
    await page.keyboard.press('y');
    await page.locator('.arrival .canvas').focus();
    await page.keyboard.press('ArrowRight');
    expect(await cutOff(page)).toEqual([]);
  });
});
