/** The built page in Firefox: the example kit, a recording, live inputs, a kit sheet, and a machine without a sound output. */
import { fileURLToPath } from 'node:url';
import type { ElementHandle, Page } from 'puppeteer-core';
import { expect, test } from 'vitest';
import { pressIn, textIn, withFirefox } from '../support/page/firefox';
import { findFirefox } from '../support/page/firefoxProgram';
import { type Answer, answerWhen } from '../support/page/screen';
import { type SoundServer, soundServerMissing, withSoundServer } from '../support/page/soundServer';
import { hits, later } from '../support/sound/signals';

const missing = findFirefox() === null ? 'no Firefox here' : null;
const missingSound = missing ?? soundServerMissing();
const RECORDING = fileURLToPath(new URL('../../samples/kit/snare-top-bottom.wav', import.meta.url));
/** samples at 48 kHz */
const LAG = 33;

const isMeasured = (a: Answer): boolean => a.state === 'measured' && a.hitsUsed >= 6;

async function playExample(page: Page): Promise<void> {
  await page.waitForSelector('#scene');
  await page.select('#scene', 'snare-top-bottom');
  await pressIn(page, 'play-demo');
}

async function analyseRecording(page: Page): Promise<Answer> {
  const field = (await page.waitForSelector('#recording-files')) as ElementHandle<HTMLInputElement>;
  await field.uploadFile(RECORDING);
  await pressIn(page, 'analyse');
  return answerWhen(page, 'a reading of the recording', isMeasured);
}

test('the example kit plays and is read right', async ({ skip }) => {
  if (missingSound) skip(missingSound);
  await withSoundServer((server) =>
    withFirefox({ soundEnv: server.env }, async (page) => {
      await playExample(page);
      const answer = await answerWhen(page, 'a reading', isMeasured);
      expect(answer.polarity).toBe('inverted');
      expect(answer.text).toMatch(/^Invert B/);
      await pressIn(page, 'invert-b');
      await answerWhen(page, 'the turned polarity', (a) => a.invertB && isMeasured(a) && a.polarity === 'same');
    }),
  );
});

function addPair(server: SoundServer): void {
  const a = hits(10, 0.6, 1);
  const b = later(a, LAG, -0.7);
  const noise = hits(10, 20, 2);
  for (let i = 0; i < b.length; i++) b[i] = (b[i] as number) + (noise[i] as number);
  server.addInput({ name: 'one', label: 'Interface one', sampleRate: 48_000 });
  server.play('one', [a, b]);
}

test('two live inputs are read right', async ({ skip }) => {
  if (missingSound) skip(missingSound);
  await withSoundServer(async (server) => {
    addPair(server);
    await withFirefox({ soundEnv: server.env }, async (page) => {
      await pressIn(page, 'connect');
      await page.waitForSelector('main.connect');
      if (await page.$('[data-command="acknowledge"]')) await pressIn(page, 'acknowledge');
      await pressIn(page, 'open-interface');
      await pressIn(page, 'skip');
      const answer = await answerWhen(page, 'a live reading', isMeasured);
      expect(answer.polarity).toBe('inverted');
      expect(Math.abs((answer.delaySamples as number) - LAG)).toBeLessThan(2);
      expect(await textIn(page, 'header')).toContain('Interface one');
    });
  });
});

test('without a sound output that is said, and a recording is analysed all the same', async ({ skip }) => {
  if (missing) skip(missing);
  await withFirefox({}, async (page) => {
    await playExample(page);
    await page.waitForSelector('[data-problem]', { timeout: 40_000 });
    expect(await textIn(page, '[data-problem] p')).toMatch(/needs a sound output/);
    const answer = await analyseRecording(page);
    expect(answer.polarity).toBe('inverted');
    await pressIn(page, 'invert-b');
    await answerWhen(page, 'the turned polarity', (a) => a.invertB && isMeasured(a) && a.polarity === 'same');
  });
});

test('a kit sheet is kept across a reload', async ({ skip }) => {
  if (missing) skip(missing);
  await withFirefox({}, async (page) => {
    await pressIn(page, 'open-sheet');
    await (await page.waitForSelector('[data-start="fourteen"]'))?.click();
    await page.waitForFunction(() => document.body.textContent?.includes('Saved in this browser at') ?? false);
    await page.reload();
    await page.waitForSelector('[data-command="open-sheet"]');
    expect(await textIn(page, '[data-command="open-sheet"]')).toMatch(/^Kit sheet: /);
  });
});
