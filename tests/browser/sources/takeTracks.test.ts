/** What a take’s tracks are: asked for where a name says nothing, told by a person, and remembered; and a whole folder. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { writeWav } from '../../../src/files/writeWav';
import { refusedByWcag } from '../../support/page/axe';
import { withPage } from '../../support/page/withPage';
import { CAPTURE_RATE } from '../../support/sound/signals';
import { struckPair } from '../../support/sound/struckPair';

let folder = '';
let snare = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'take-'));
  const { a, b } = struckPair({ sampleRate: CAPTURE_RATE, hits: 8, delaySamples: 40, polarity: 'inverted' });
  writeFileSync(join(folder, 'Audio 1.wav'), writeWav([a], CAPTURE_RATE, 's24'));
  writeFileSync(join(folder, 'OH.wav'), writeWav([b], CAPTURE_RATE, 's24'));
  for (const name of ['.DS_Store', 'notes.txt', 'OH.wav.reapeaks'])
    writeFileSync(join(folder, name), 'nothing to hear');
  mkdirSync(join(folder, 'edits'));
  snare = join(folder, 'edits', 'Snare.wav');
  writeFileSync(snare, writeWav([a], CAPTURE_RATE, 's24'));
  writeFileSync(join(folder, 'edits', 'Audio 1.wav'), 'nothing to hear');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('a track whose name says nothing is asked for, read as it is said, and known the next time', async () => {
  await withPage({}, async ({ page }) => {
    const open = async (): Promise<void> => {
      await page.locator('[data-command="open-take"]').click();
      await page.locator('[data-take="none"]').waitFor();
      await page.locator('#take-folder').setInputFiles(folder);
      await page.locator('[data-take="read"]').waitFor();
    };
    await open();
    expect(
      await page.locator('[data-track]').evaluateAll((rows) => rows.map((row) => row.getAttribute('data-track'))),
    ).toEqual(['Audio 1.wav', 'OH.wav']);
    expect(await page.locator('[data-fault]').count()).toBe(0);
    expect(await page.locator('[data-drum="snare"]').count()).toBe(0);
    const list = page.locator('.take-tracks');
    expect(await list.getAttribute('open')).not.toBeNull();
    expect(await list.locator('summary').textContent()).toBe('2 tracks: say what this one is: Audio 1');

    await page.locator('[data-track="Audio 1.wav"] select').selectOption('drum snare');
    await page.locator('[data-take="read"] [data-drum="snare"]').waitFor();
    await page.locator('[data-track="Audio 1.wav"] select').nth(1).selectOption('top');
    await page.locator('[data-take="read"] [data-polarity="inverted"]').waitFor();

    await page.reload();
    await open();
    expect(await list.getAttribute('open')).toBeNull();
    await page.locator('[data-drum="snare"]').waitFor();

    await list.locator('summary').click();
    await page.locator('[data-track="OH.wav"] select').selectOption('left-out');
    await page.locator('[data-take="read"]').waitFor();
    expect(await page.locator('.take-table tbody tr').count()).toBe(1);
  });
});

test('a kit sheet is made of it, its readings are accepted, and the sheet shows them as any other', async () => {
  await withPage({}, async ({ page }) => {
    await page.locator('[data-command="open-take"]').click();
    await page.locator('#take-files').setInputFiles([snare, join(folder, 'OH.wav')]);
    await page.locator('[data-take="read"]').waitFor();
    await page.locator('[data-command="take-make-sheet"]').click();
    await page.locator('[data-command="take-accept-all"]:enabled').click();
    await page.locator('[data-drum="snare"]').click();
    await page.locator('.take-tracks summary').click();
    await page.locator('[data-open="snare"]').waitFor();
    expect(await refusedByWcag(page, 'a take that is read')).toEqual([]);
    await page.locator('[data-take-said]', { hasText: 'Accepted 1 reading: 1 new.' }).waitFor();
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.locator('[data-command="take-csv"]').click(),
    ]);
    expect(download.suggestedFilename()).toBe('offsets.csv');
    expect(readFileSync(await download.path(), 'utf8')).toMatch(/\r\nOH\.wav,Overhead,/);
    await page.locator('[data-command="take-open-sheet"]').click();
    await page.locator('#pairs summary').click();
    const row = page.locator('[data-pair][data-state="accepted"]');
    await row.waitFor();
    expect(await row.textContent()).toMatch(
      /Snare & Overhead.*inverted.*8 of 8 hits agree, \d+(\.\d)? kHz, 20 °C, from the tracks Snare\.wav and OH\.wav/s,
    );
  });
});

test('a folder without a track: one sentence', async () => {
  await withPage({}, async ({ page }) => {
    await page.locator('[data-command="open-take"]').click();
    const empty = mkdtempSync(join(tmpdir(), 'none-'));
    writeFileSync(join(empty, 'notes.txt'), 'nothing to hear');
    await page.locator('#take-folder').setInputFiles(empty);
    await page.locator('[data-take="failed"]').waitFor();
    expect(await page.locator('.take-failed').textContent()).toMatch(/^There is no audio file in this folder itself/);
    rmSync(empty, { recursive: true, force: true });
  });
});
