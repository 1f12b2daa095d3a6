/** Markup wherever a person can type or a file brings text: it is shown as text, makes no element and never runs. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { writeWav } from '../../../src/files/writeWav';
import { askForInput } from '../../support/page/interface';
import { alive, IN_FILE_NAME, MARKUP, QUOTED } from '../../support/page/markup';
import { answerWhen, press, unfold } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { twoDrums } from '../../support/sound/twoDrums';

const RATE = 48_000;
const EXAMPLE = new URL('../../../samples/kit/example-kit.json', import.meta.url);
/** of the sheet's file: every field that holds a person's text */
const TEXTS = /^(label|drum|side|note|input|lowCut|pad|contour|initials|reason|run|name)$/;

/** Shown as it was written. */
async function shown(page: Page, text: string): Promise<void> {
  expect(await page.locator('body').textContent()).toContain(text);
  expect(await alive(page)).toEqual([]);
}

const fill = async (page: Page, selector: string, text: string): Promise<void> => {
  await page.locator(selector).first().fill(text);
  await page.locator(selector).first().press('Tab');
};

test('typed on the kit sheet, in the round, and carried to the meter, the large display and the hand-over', async () => {
  await withPage({}, async ({ page }) => {
    await press(page, 'open-sheet');
    await page.locator('[data-start="four"]').click();
    await fill(page, '#kit-name', MARKUP);
    await unfold(page, 'pairs', 'mics', 'about', 'together');
    await fill(page, '#kit-note', QUOTED);
    await fill(page, '#initials', '<b>x</b>');
    const rows = page.locator('.microphones tbody tr');
    for (let row = 0; row < (await rows.count()); row++)
      for (const field of await rows.nth(row).locator('input').all()) {
        await field.fill((await field.getAttribute('maxlength')) === '80' ? MARKUP : QUOTED);
        await field.press('Tab');
      }
    await shown(page, MARKUP);
    await page.locator('.pair-row [data-command="measure-pair"]').first().click();
    await shown(page, MARKUP);
    await press(page, 'play-demo');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' || a.fuller !== null);
    await shown(page, MARKUP);
    await press(page, 'call-out');
    await page.locator('.call-out').waitFor();
    expect(await alive(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await press(page, 'why');
    await page.locator('.why-hit').first().waitFor();
    expect(await alive(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await page.keyboard.press('n');
    await page.locator('#leave-note').fill(MARKUP);
    await page.keyboard.press('Enter');
    await page.locator('#leave-note').waitFor({ state: 'detached' });
    await page.locator('.round').waitFor();
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('e');
    await page.locator('main.kit').waitFor();
    await shown(page, MARKUP);
    await press(page, 'hand-over');
    await page.locator('.ho-page').waitFor();
    await shown(page, MARKUP);
    await shown(page, QUOTED);
    await press(page, 'kit');
    await press(page, 'close-kit');
    await shown(page, MARKUP);
    await page.reload();
    await page.locator('[data-command="open-sheet"]').waitFor();
    expect(await alive(page)).toEqual([]);
  });
});

test('brought by a kit sheet’s file, in every text of it, and by its name', async () => {
  const text = JSON.stringify(JSON.parse(readFileSync(EXAMPLE, 'utf8')), (key, value) =>
    typeof value !== 'string' || value === '' || !TEXTS.test(key)
      ? value
      : key === 'drum'
        ? `${MARKUP} ${value}`
        : MARKUP,
  );
  const file = (name: string, content: string) => ({
    name,
    mimeType: 'application/json',
    buffer: Buffer.from(content),
  });
  await withPage({}, async ({ page }) => {
    await press(page, 'open-sheet');
    await page
      .locator('#kit-file')
      .setInputFiles(file(`${IN_FILE_NAME}.json`, `{"format":"${MARKUP.replaceAll('"', '\\"')}"}`));
    await page.locator('#kit-problem').waitFor();
    expect(await alive(page)).toEqual([]);
    await page.locator('#kit-file').setInputFiles(file(`${IN_FILE_NAME}.json`, text));
    await page.locator('#kit-name').waitFor();
    expect(await page.locator('#kit-name').inputValue()).toBe(MARKUP);
    await shown(page, MARKUP);
    await press(page, 'hand-over');
    await page.locator('.ho-page').waitFor();
    await shown(page, MARKUP);
    await press(page, 'kit');
    await unfold(page, 'pairs');
    await page.locator('.pair-row [data-command="measure-pair"]').first().click();
    await shown(page, MARKUP);
    await press(page, 'open-sheet');
    await page.locator('main.kit').waitFor();
    expect(await alive(page)).toEqual([]);
  });
});

test('brought by a recording’s name, typed as names of microphones and drums, and as a device calls itself', async () => {
  const { a, b } = twoDrums(RATE, 6);
  const wav = (name: string, channels: Float32Array[]) => ({
    name,
    mimeType: 'audio/wav',
    buffer: Buffer.from(writeWav(channels, RATE, 's24')),
  });
  // a device's name is its maker's text; the only one is what the default is
  const initScript = `const list = navigator.mediaDevices.enumerateDevices.bind(navigator.mediaDevices);
    navigator.mediaDevices.enumerateDevices = async () => {
      const inputs = (await list()).filter(({ kind }) => kind === 'audioinput');
      const [only] = inputs.filter(({ deviceId }) => deviceId !== 'default');
      return inputs.filter((it) => it === only || it.deviceId === 'default').map((it) => new Proxy(it, {
        get: (on, key) => (key === 'label' ? ${JSON.stringify(MARKUP)} : Reflect.get(on, key, on)),
      }));
    };
    Object.defineProperty(MediaStreamTrack.prototype, 'label', { get: () => ${JSON.stringify(MARKUP)} });`;
  await withPage({ initScript }, async ({ page }) => {
    const files = page.locator('#recording-files').first();
    await files.setInputFiles({ name: `${IN_FILE_NAME}.wav`, mimeType: 'audio/wav', buffer: Buffer.from('no sound') });
    await page.locator('main.recording').waitFor();
    await press(page, 'analyse').catch(() => undefined);
    await page.locator('[data-problem]').waitFor();
    expect(await alive(page)).toEqual([]);
    await files.setInputFiles([wav(`${IN_FILE_NAME} 1.wav`, [a]), wav(`${IN_FILE_NAME} 2.wav`, [b])]);
    await page.locator('main.recording[data-files="fine"]').waitFor();
    await shown(page, IN_FILE_NAME);
    for (const which of ['A', 'B', 'drum'])
      if (await page.locator(`[data-name-of="${which}"]`).count())
        await fill(page, `[data-name-of="${which}"]`, MARKUP);
    await press(page, 'analyse');
    await answerWhen(page, 'the end', (answer) => answer.run === 'ended');
    await shown(page, MARKUP);
    await page.locator('[data-command="name-drum"]').first().click();
    await page.locator('[data-name-of="heard-drum"]').fill('<i onclick=1>x');
    await page.keyboard.press('Enter');
    expect(await alive(page)).toEqual([]);
    await press(page, 'sources');
    await askForInput(page);
    await page.locator('main.identify').waitFor();
    await press(page, 'skip');
    await answerWhen(page, 'live samples', (answer) => answer.run === 'running');
    await shown(page, MARKUP);
  });
});
