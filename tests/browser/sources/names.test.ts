/** What two microphones and the drums are called: asked at the recording door, guessed from the files' names, given in the drum list. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { writeWav } from '../../../src/files/writeWav';
import { answerWhen, press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { twoDrums } from '../../support/sound/twoDrums';

const RATE = 48_000;
const { a, b } = twoDrums(RATE, 6);
const wav = (name: string, channels: Float32Array[]) => ({
  name,
  mimeType: 'audio/wav',
  buffer: Buffer.from(writeWav(channels, RATE, 's24')),
});

async function choose(page: Page, files: ReturnType<typeof wav>[]): Promise<void> {
  await page.locator('#recording-files').first().setInputFiles(files);
  await page.locator('main.recording[data-files="fine"]').waitFor();
}

const asked = async (page: Page): Promise<string[]> => [
  await page.locator('#recording-kind').inputValue(),
  ...(await page.locator('.asked-names input').evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value))),
];

test('two files: what they are is guessed from their names, can be said otherwise, and is the next recording’s no more', async () => {
  await withPage({}, async ({ page }) => {
    await choose(page, [wav('05 SNR Btm.wav', [b]), wav('04 SNR Top.wav', [a])]);
    expect(await asked(page)).toEqual(['top-bottom', 'Snare top', 'Snare bottom', 'snare']);
    expect(await page.locator('.files li').allTextContents()).toEqual([
      'A · Snare top 04 SNR Top.wav',
      'B · Snare bottom 05 SNR Btm.wav',
    ]);
    expect(await page.locator('.guess').count()).toBe(4);
    await page.locator('[data-name-of="B"]').fill('Snare wires');
    await page.locator('[data-name-of="B"]').press('Tab');
    await page.locator('#recording-kind').selectOption('same-side');
    // the names of A and the drum are guesses still
    expect(await page.locator('.guess').count()).toBe(2);
    await press(page, 'analyse');
    await answerWhen(page, 'the end', (answer) => answer.run === 'ended');
    expect(await page.locator('#pair-kind').inputValue()).toBe('same-side');
    expect(await page.locator('.pair strong').textContent()).toBe('Snare top & Snare wires');

    await press(page, 'sources');
    await choose(page, [wav('take.wav', [a, b])]);
    expect(await asked(page)).toEqual(['other', '', '', '']);
    expect(await page.locator('.asked [role="status"]').textContent()).toContain('don’t say which mics these are');
    await press(page, 'analyse');
    await answerWhen(page, 'the end', (answer) => answer.run === 'ended');
    expect(await page.locator('#pair-kind').inputValue()).toBe('other');
    expect(await page.locator('#label-a').inputValue()).toBe('');
  });
});

test('in a round the sheet says what the two are, and nothing is asked', async () => {
  await withPage({}, async ({ page }) => {
    await press(page, 'open-sheet');
    await page.locator('[data-start="eight"]').click();
    await press(page, 'begin-round');
    await page
      .locator('#recording-files')
      .first()
      .setInputFiles([wav('OH L.wav', [a]), wav('OH R.wav', [b])]);
    await page.locator('.asked[data-asked="sheet"]').waitFor();
    expect(await page.locator('.asked').textContent()).toBe(
      'Kick in & Kick out: Inside and outside, kick. As on the kit sheet.',
    );
    expect(await page.locator('#recording-kind').count()).toBe(0);
    await press(page, 'analyse');
    await answerWhen(page, 'the end', (answer) => answer.run === 'ended');
    expect(await page.locator('#pair-kind').inputValue()).toBe('inside-outside');
    expect(await page.locator('.sheet .drum[data-read="true"] b').textContent()).toBe('Kick');
  });
});

test('a drum in the list is called by a name: a usual one, one’s own, none', async () => {
  await withPage({}, async ({ page }) => {
    await choose(page, [wav('kit.wav', [a, b])]);
    await press(page, 'analyse');
    await answerWhen(page, 'the end', (answer) => answer.run === 'ended');
    const first = page.locator('.sheet .drum-row').first();
    const name = first.locator('b');
    expect(await name.textContent()).toMatch(/^Drum \d \(/);
    await first.locator('[data-command="name-drum"]').click();
    await page.locator('.drum-naming button', { hasText: 'rack tom' }).click();
    expect(await name.textContent()).toBe('Rack tom');
    expect(await page.locator('.drum-naming').count()).toBe(0);

    // by keys alone: the letters of a name are no commands
    await first.locator('[data-command="name-drum"]').focus();
    await page.keyboard.press('Enter');
    await page.locator('[data-name-of="heard-drum"]').focus();
    await page.keyboard.type('His old drum');
    await page.keyboard.press('Enter');
    expect(await name.textContent()).toBe('His old drum');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Escape');
    expect(await page.locator('.drum-naming').count()).toBe(0);
    expect(await name.textContent()).toBe('His old drum');

    await first.locator('[data-command="name-drum"]').click();
    await page.locator('.drum-naming button', { hasText: 'No name' }).click();
    expect(await name.textContent()).toMatch(/^Drum \d \(/);
  });
});
