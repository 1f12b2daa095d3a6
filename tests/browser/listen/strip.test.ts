/** Hear it on the page, in real time: what goes out is tapped, nothing is taken from the page's word. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { writeWav } from '../../../src/files/writeWav';
import { WAITING } from '../../../src/ui/listen/words';
import { openInterface } from '../../support/page/interface';
import { answerWhen, playScene, press } from '../../support/page/screen';
import { TAP, tapped, tappedWhen } from '../../support/page/tappedOutput';
import { withPage } from '../../support/page/withPage';
import { CAPTURE_RATE, captureWav, hits, later } from '../../support/sound/signals';
import { struckPair } from '../../support/sound/struckPair';

const KIT = fileURLToPath(new URL('../../../samples/kit/', import.meta.url));

async function openStrip(page: Page): Promise<void> {
  await answerWhen(page, 'a reading', (a) => a.state === 'measured');
  await press(page, 'try');
  await page.locator('.listen').waitFor();
}
const choose = (page: Page, value: string): Promise<void> => page.locator(`[data-choice="${value}"]`).click();
const setLevel = (page: Page, level: number): Promise<void> =>
  page.locator('[data-field="listen-level"]').fill(String(level));
const note = async (page: Page): Promise<string> => (await page.locator('.listen-note').textContent()) ?? '';

test('the example kit plays from silence, versions change what comes out, and the meter reads on', async () => {
  await withPage({ initScript: TAP }, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await openStrip(page);
    // the meter's own way out is there, and silent
    const before = await tapped(page);
    expect(before.left).toBe(0);
    await press(page, 'listen');
    await page.locator('[data-command="listen"][aria-pressed="true"]').waitFor();
    await expect.poll(() => note(page)).toContain('Level is at zero');
    await page.waitForTimeout(1200);
    expect((await tapped(page)).left).toBe(0);

    await setLevel(page, 0.5);
    await tappedWhen(page, 'sound in both ears alike', (now) => now.left > 0.02 && now.difference === 0);
    await choose(page, 'apart');
    await tappedWhen(page, 'A left and B right', (now) => now.difference > 0.02);
    await choose(page, 'b');
    await tappedWhen(page, 'B alone, in both ears', (now) => now.left > 0.02 && now.difference === 0);
    await choose(page, 'both');
    await tappedWhen(page, 'A+B', (now) => now.left > 0.02 && now.difference === 0);
    // matched: the same loudness from another sum
    expect(await page.locator('[data-matched]').textContent()).toMatch(/^[−+]?\d+(\.\d)? dB/);
    await choose(page, 'tried');
    await page.keyboard.press('ArrowLeft');
    expect(await page.locator('[data-choice]:has(:checked)').first().getAttribute('data-choice')).not.toBe('tried');

    const reading = await answerWhen(page, 'the next hit', () => true);
    await answerWhen(page, 'the meter reads on', (a) => a.hits > reading.hits && a.state === 'measured');

    await page.keyboard.press('z');
    await tappedWhen(page, 'silence', (now) => now.left === 0 && now.right === 0);
    await page.keyboard.press('z');
    await page.locator('[data-command="listen"][aria-pressed="true"]').waitFor();
    // each time from silence
    await expect.poll(() => note(page)).toContain('Level is at zero');
    await setLevel(page, 0.5);
    await tappedWhen(page, 'the loop again', (now) => now.left > 0.02);
    // whoever leaves takes it along
    await press(page, 'back');
    await tappedWhen(page, 'silence', (now) => now.left === 0 && now.open === 1);
  });
});

/** A pair that is easy to read: B 9 samples later, inverted. */
function pairWav(): string {
  const a = hits(12, 0.6, 1);
  return captureWav('heard', a, later(a, 9, -0.7));
}

test('open mics: no output is there until the warning is confirmed, then it starts silent; newest hits loop', async () => {
  await withPage({ captureWav: pairWav(), initScript: TAP }, async ({ page }) => {
    await openInterface(page, 'two-overheads');
    await openStrip(page);
    expect((await tapped(page)).open).toBe(0);
    await press(page, 'listen-live');
    await page.locator('.live-warning').waitFor();
    await page.waitForTimeout(500);
    expect((await tapped(page)).open).toBe(0);
    await press(page, 'refuse-live');
    await page.locator('.live-warning').waitFor({ state: 'detached' });
    expect((await tapped(page)).open).toBe(0);

    await press(page, 'listen-live');
    await press(page, 'confirm-live');
    await page.locator('[data-command="listen-live"][aria-pressed="true"]').waitFor();
    await tappedWhen(page, 'an output', (now) => now.open === 1);
    // the next thing to do has the focus
    expect(await page.evaluate(() => (document.activeElement as HTMLElement | null)?.dataset.field)).toBe(
      'listen-level',
    );
    await page.waitForTimeout(1000);
    expect((await tapped(page)).left).toBe(0);
    await setLevel(page, 0.3);
    await tappedWhen(page, 'what comes in', (now) => now.left > 0.01 && now.difference === 0);
    await choose(page, 'apart');
    await tappedWhen(page, 'A left and B right', (now) => now.difference > 0.01);
    await press(page, 'listen-live');
    await tappedWhen(page, 'silence', (now) => now.open === 0);

    await press(page, 'listen');
    await setLevel(page, 0.3);
    await tappedWhen(page, 'the newest hit', (now) => now.open === 1 && now.left > 0.01);
    expect(await note(page)).toContain('1 hit');
    const reading = await answerWhen(page, 'a hit', () => true);
    await answerWhen(page, 'the meter reads on', (a) => a.hits > reading.hits && a.state === 'measured');
  });
});

test('the drummer has stopped: the newest hit plays at once; when none is left, Play waits for the next', {
  timeout: 120_000,
}, async () => {
  // 9 s of hits and 16 s of none, round and round: opening takes some of them, and audio may be dropped at others
  const a = new Float32Array(25 * CAPTURE_RATE);
  a.set(hits(25, 60, 3));
  a.set(hits(9, 0.5, 1));
  await withPage({ captureWav: captureWav('stopped', a, later(a, 9, -0.7)), initScript: TAP }, async ({ page }) => {
    await openInterface(page, 'two-overheads');
    let newest = -1;
    const answer = await answerWhen(page, 'a reading', (now) => now.state === 'measured');
    newest = answer.hits;
    for (let still = 0; still < 3; still++) {
      await page.waitForTimeout(600);
      const { hits: now } = await answerWhen(page, 'the hits', () => true);
      if (now !== newest) still = -1;
      newest = now;
    }
    await openStrip(page);
    await press(page, 'listen');
    await page.locator('[data-command="listen"][aria-pressed="true"]').waitFor();
    await expect.poll(() => note(page)).toContain('Level is at zero');
    await setLevel(page, 0.5);
    await tappedWhen(page, 'the newest hit', (now) => now.left > 0.01);
    await press(page, 'listen');
    // until nothing of the 8 s that are kept is a hit any more
    await expect
      .poll(
        async () => {
          await press(page, 'listen');
          await expect.poll(() => note(page)).not.toBe('');
          const told = await note(page);
          if (told !== WAITING) await press(page, 'listen');
          return told;
        },
        { timeout: 40_000, interval: 1000 },
      )
      .toBe(WAITING);
    await page.keyboard.press('z');
    await expect.poll(() => note(page)).toBe('');
    await page.keyboard.press('z');
    await expect.poll(() => note(page)).toBe(WAITING);
    await expect.poll(() => note(page), { timeout: 20_000 }).toContain('Level is at zero');
    await setLevel(page, 0.5);
    await tappedWhen(page, 'the first whole hit', (now) => now.left > 0.01);
  });
});

test('a recording that was analysed, and a pair of a take, are heard as well', async () => {
  await withPage({ initScript: TAP }, async ({ page }) => {
    const heard = async (): Promise<void> => {
      await openStrip(page);
      await press(page, 'listen');
      await setLevel(page, 0.6);
      await tappedWhen(page, 'sound', (now) => now.left > 0.01);
      await expect.poll(() => note(page)).toContain('1 hit');
      await press(page, 'back');
      await tappedWhen(page, 'silence', (now) => now.open === 0);
    };
    await page.locator('#recording-files').first().setInputFiles(`${KIT}snare-top-bottom.wav`);
    await press(page, 'analyse');
    await heard();

    const folder = mkdtempSync(join(tmpdir(), 'take-'));
    const { a, b } = struckPair({ sampleRate: CAPTURE_RATE, hits: 8, delaySamples: 40, polarity: 'inverted' });
    writeFileSync(join(folder, 'Snare.wav'), writeWav([a], CAPTURE_RATE, 's24'));
    writeFileSync(join(folder, 'OH.wav'), writeWav([b], CAPTURE_RATE, 's24'));
    await press(page, 'sources');
    await press(page, 'open-take');
    await page.locator('#take-folder').setInputFiles(folder);
    await page.locator('[data-take="read"]').waitFor();
    await page.locator('td[data-state="measured"] button').click();
    await heard();
    rmSync(folder, { recursive: true });
  });
});
