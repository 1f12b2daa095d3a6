/** Voice and tone: what is said, with the browser's speech put in by the test, and what sounds while a mic is moved. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { answerWhen, playScene, press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { CAPTURE_RATE, captureWav, hits } from '../../support/sound/signals';

/** Speech that keeps what it is told to say. Two voices of this computer, one of a server that is the browser's own choice. */
const SPEECH = `window.spoken = [];
const voices = [
  { name: 'Far server', lang: 'en-GB', localService: false, default: true },
  { name: 'Nah', lang: 'de-DE', localService: true, default: false },
  { name: 'Harbour', lang: 'en-GB', localService: true, default: false },
  { name: 'Quarry', lang: 'en-US', localService: true, default: false },
];
window.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
const speech = new EventTarget();
Object.assign(speech, {
  getVoices: () => voices,
  cancel() {},
  speak: ({ text, voice, volume }) => spoken.push({ text, voice: voice?.name ?? '', volume }),
});
Object.defineProperty(window, 'speechSynthesis', { value: speech });`;

interface Spoken {
  text: string;
  voice: string;
  volume: number;
}
const spoken = (page: Page): Promise<Spoken[]> =>
  page.evaluate(() => (window as unknown as { spoken: Spoken[] }).spoken);

async function openPanel(page: Page): Promise<void> {
  await press(page, 'call-out');
  await press(page, 'voice-and-tone');
  await page.locator('.sound-panel').waitFor();
}

test('the voice says an answer once, with voice and level as set, and the next when it has changed', async () => {
  await withPage({ initScript: SPEECH }, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await openPanel(page);
    expect(await page.locator('.sound-panel').textContent()).toMatch(/headphones only, never from a loudspeaker/);
    expect(await page.locator('#voice-on').isChecked()).toBe(false);
    // none that would send what is said to a server, and English first
    expect(await page.locator('#voice option').allTextContents()).toEqual(['Harbour', 'Quarry']);
    expect(await spoken(page)).toEqual([]);
    await page.locator('#voice').selectOption('Quarry');
    await page.locator('#voice-level').fill('0.3');
    await press(page, 'voice-sample');
    expect(await spoken(page)).toEqual([
      { text: 'Snare bottom: two and a half centimetres closer', voice: 'Quarry', volume: 0.3 },
    ]);
    await page.locator('#voice-on').check();
    await page.keyboard.press('Escape');
    // the panel alone is closed
    await page.locator('.sound-panel').waitFor({ state: 'detached' });
    await page.locator('.call-out [data-flag="sounds"]', { hasText: 'Voice on' }).waitFor();

    const answers = async (): Promise<string[]> => (await spoken(page)).slice(2).map(({ text }) => text);
    expect((await spoken(page))[1]?.text).toMatch(/^Voice on\. Into headphones only/);
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    await expect.poll(answers, { timeout: 20_000 }).toContain('Invert B');
    const first = await answers();
    // many more hits that say the same
    const { hits: from } = await answerWhen(page, 'now', () => true);
    await answerWhen(page, 'more hits', (a) => a.hits >= from + 8);
    expect(await answers()).toEqual(first);

    await press(page, 'back');
    await page.keyboard.press('i');
    await expect.poll(async () => (await answers()).length, { timeout: 20_000 }).toBe(first.length + 1);
    await sleep(4000);
    const all = await answers();
    expect(all.length).toBe(first.length + 1);
    for (const [i, text] of all.entries()) expect(text).not.toBe(all[i - 1]);
    for (const { voice, volume } of await spoken(page)) expect([voice, volume]).toEqual(['Quarry', 0.3]);

    // levels and voice are remembered, on isn't
    await page.reload();
    await playScene(page, 'snare-top-bottom');
    await openPanel(page);
    expect([
      await page.locator('#voice-on').isChecked(),
      await page.locator('#voice').inputValue(),
      await page.locator('#voice-level').inputValue(),
    ]).toEqual([false, 'Quarry', '0.3']);
  });
});

test('a browser without voices says so', async () => {
  await withPage(
    { initScript: SPEECH.replace(/const voices = \[[\s\S]*?\];/, 'const voices = [];') },
    async ({ page }) => {
      await playScene(page, 'snare-top-bottom');
      await openPanel(page);
      expect(await page.locator('[data-voices="none"]').textContent()).toMatch(/no voice/);
      expect(await page.locator('#voice-on').count()).toBe(0);
    },
  );
});

const HIT_SECONDS = 0.6;
/** samples by which B is behind A at each hit: far off, on its way by 1.6 cm a hit, near its place */
const LAGS: readonly number[] = [
  ...Array<number>(16).fill(25),
  ...[23, 21, 19, 17, 15, 13, 11, 9, 7],
  ...Array<number>(16).fill(6),
];

/** B stands, comes nearer with each hit, and stands. A recording: of a live input a busy machine may lose some. */
function comingWav(): string {
  const seconds = HIT_SECONDS * LAGS.length;
  const a = hits(seconds, HIT_SECONDS, 1);
  const b = hits(seconds, 3 * seconds, 2);
  for (let at = Math.max(...LAGS); at < b.length; at++) {
    const lag = LAGS[Math.min(LAGS.length - 1, Math.floor(at / (HIT_SECONDS * CAPTURE_RATE)))] as number;
    b[at] = (b[at] as number) + 0.7 * (a[at - lag] as number);
  }
  return captureWav('coming', a, b);
}

/** Keeps what the tone is told: the frequency of its first oscillator, and the level before the output. */
const WATCH_TONE = `window.tone = { hz: [], levels: [] };
const plain = AudioParam.prototype.setTargetAtTime;
AudioParam.prototype.setTargetAtTime = function (value, at, time) {
  if (value >= 220 && value <= 880) tone.hz.push(Math.round(value));
  else if (value < 0.13 && time >= 0.05) tone.levels.push(value);
  return plain.call(this, value, at, time);
};`;

/** Of those that follow each other, each higher than the one before. */
function longestRise(hz: readonly number[]): number {
  let [most, rise] = [0, 0];
  for (const [i, value] of hz.entries()) {
    if (value === hz[i - 1]) continue;
    rise = value > (hz[i - 1] ?? 0) ? rise + 1 : 1;
    most = Math.max(most, rise);
  }
  return most;
}

test('the tone rises while B is brought nearer, and is silent otherwise', async () => {
  await withPage({ initScript: WATCH_TONE }, async ({ page }) => {
    const tone = () => page.evaluate(() => (window as unknown as { tone: { hz: number[]; levels: number[] } }).tone);
    await page.locator('#recording-files').first().setInputFiles(comingWav());
    await press(page, 'play');
    await page.locator('#answer').waitFor();
    await page.locator('#pair-kind').selectOption('same-side');
    await openPanel(page);
    await page.locator('#tone-on').check();
    await page.keyboard.press('Escape');
    await expect.poll(async () => longestRise((await tone()).hz), { timeout: 60_000 }).toBeGreaterThanOrEqual(5);
    await answerWhen(page, 'that it stands', (a) => a.state === 'measured');
    // each level goes with a silence in a while, should the page hang: two in a row are one that holds
    await expect.poll(async () => (await tone()).levels.slice(-2)).toEqual([0, 0]);
    // quiet until somebody turns it up: full level is −18 dBFS, and it begins at a sixteenth of that
    const loudest = Math.max(...(await tone()).levels);
    expect(loudest).toBeGreaterThan(0);
    expect(loudest).toBeLessThan(0.01);
  });
});
