/** Files of no sound, and of rates beyond the meter's, on the built page: samples that are no numbers reach the meter as they are. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { floatWav } from '../../files/wavBytes';
import { answerWhen, press, problemSentence } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { struckPair } from '../../support/sound/struckPair';

const RATE = 48000;

async function choose(page: Page, channels: Float32Array[], sampleRate: number): Promise<void> {
  const buffer = Buffer.from(floatWav(channels, sampleRate));
  await page.locator('#recording-files').first().setInputFiles({ name: 'take.wav', mimeType: 'audio/wav', buffer });
}

test('a rate that can’t be measured is told in the command’s words', async () => {
  await withPage({}, async ({ page }) => {
    await choose(page, [new Float32Array(4000), new Float32Array(4000)], 4000);
    expect(await problemSentence(page, 'unsupported-file')).toBe(
      'take.wav: its rate is 4000 Hz, and 8000 to 384000 Hz can be measured; export it at 48000 Hz.',
    );
  });
});

test('gaps that cut each hit of a ringing drum: none of these hits counts, nothing is certain, and where they are is said', async () => {
  // B is 3.4 ms later and inverted; each gap ends in both channels at once, which would be a certain 0
  const { a, b } = struckPair({ sampleRate: RATE, hits: 12, delaySamples: 163, polarity: 'inverted' });
  for (let hit = 0; hit < 12; hit++) {
    const from = Math.round((0.4 + 0.5 * hit) * RATE);
    for (const channel of [a, b]) channel.fill(Number.NaN, from - 200, from + 900);
  }
  await withPage({}, async ({ page }) => {
    await choose(page, [a, b], RATE);
    await page.locator('.recording[data-files="fine"]').waitFor();
    expect(await page.locator('main.recording').textContent()).toContain(
      'no sound in it at 12 places, the longest from',
    );
    await press(page, 'analyse');
    const shown = await answerWhen(page, 'the end of the analysis', (answer) => answer.run === 'ended');
    expect([shown.state, shown.polarity, shown.delaySamples, shown.hitsUsed]).toEqual(['listening', null, null, 0]);
    expect(await page.locator('.head').textContent()).toContain('no sound in it at 12 places');
  });
});
