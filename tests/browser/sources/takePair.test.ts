/** A pair of a take on the meter: what its cell says, with the plots, the hits at their times in the take, and heard. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { writeWav } from '../../../src/files/writeWav';
import { answerWhen, press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { CAPTURE_RATE } from '../../support/sound/signals';
import { struckPair } from '../../support/sound/struckPair';

const SECONDS_BEFORE = 3;
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'take-'));
  const { a, b } = struckPair({ sampleRate: CAPTURE_RATE, hits: 8, delaySamples: 40, polarity: 'inverted' });
  const late = (x: Float32Array | Float64Array): Float32Array => {
    const y = new Float32Array(SECONDS_BEFORE * CAPTURE_RATE + x.length);
    y.set(x, SECONDS_BEFORE * CAPTURE_RATE);
    return y;
  };
  writeFileSync(join(folder, 'Snare.wav'), writeWav([late(a)], CAPTURE_RATE, 's24'));
  writeFileSync(join(folder, 'OH.wav'), writeWav([late(b)], CAPTURE_RATE, 's24'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What goes to the output is looked at on its way there. */
const LISTEN = `{
  const connect = AudioNode.prototype.connect;
  AudioNode.prototype.connect = function (to, ...rest) {
    if (to instanceof AudioDestinationNode && this.context instanceof AudioContext) {
      const tap = new AnalyserNode(this.context, { fftSize: 32768 });
      connect.call(this, tap);
      window.heardPeak = () => {
        const x = new Float32Array(tap.fftSize);
        tap.getFloatTimeDomainData(x);
        return Math.max(...x.map(Math.abs));
      };
    }
    return connect.call(this, to, ...rest);
  };
}`;
const heardPeak = (page: Page): Promise<number> =>
  page.evaluate(() => (window as unknown as { heardPeak?: () => number }).heardPeak?.() ?? -1);

test('from its cell to the meter and back', async () => {
  await withPage({ initScript: LISTEN, viewport: { width: 1440, height: 900 } }, async ({ page }) => {
    await page.locator('[data-command="open-take"]').click();
    await page.locator('#take-folder').setInputFiles(folder);
    await page.locator('[data-take="read"]').waitFor();
    const cell = page.locator('td[data-state="measured"]');
    const told = await cell.evaluate((td) => ({ ...(td as HTMLElement).dataset }));
    expect(Math.abs(Number(told.delay) - 40)).toBeLessThan(1);
    const todo = await cell.locator('.take-do').textContent();

    await cell.locator('button').click();
    const answer = await answerWhen(
      page,
      'the end of the hits',
      (one) => one.run === 'ended' && one.state === 'measured',
    );
    expect(answer.polarity).toBe(told.polarity);
    expect(answer.delaySamples).toBeCloseTo(Number(told.delay), 2);
    expect(answer.hitsUsed).toBe(8);
    expect(todo).toMatch(/^invert/);
    expect(answer.text).toMatch(/^Invert/);
    expect(await page.locator('.source-line').textContent()).toContain('Snare: Snare – OH, 8 hits of the take');
    // the sum and the first pushes are drawn
    for (const figure of ['.figure.sum', '.figure.arrival']) {
      const inked = await page
        .locator(`${figure} canvas`)
        .first()
        .evaluate((canvas) => {
          const { width, height } = canvas as HTMLCanvasElement;
          const data = (canvas as HTMLCanvasElement).getContext('2d')?.getImageData(0, 0, width, height).data ?? [];
          return new Set(Array.from({ length: data.length / 4 }, (_, i) => data[4 * i + 3])).size;
        });
      expect(inked, figure).toBeGreaterThan(1);
    }

    await press(page, 'why');
    await page.locator('.why-hit').first().waitFor();
    const times = await page.locator('.why-hit .quiet').allTextContents();
    expect(times).toHaveLength(8);
    for (const time of times) expect(Number(/[\d.]+/.exec(time)?.[0])).toBeGreaterThan(SECONDS_BEFORE);
    await page.keyboard.press('Escape');

    expect(await heardPeak(page)).toBe(-1);
    await page.locator('#hear').fill('0.5');
    await page.waitForFunction(() => ((window as unknown as { heardPeak?: () => number }).heardPeak?.() ?? 0) > 0.01);

    await page.locator('[data-command="back-to-take"]').click();
    await page.locator('[data-take="read"]').waitFor();
    await page.waitForFunction(() => ((window as unknown as { heardPeak?: () => number }).heardPeak?.() ?? 1) < 1e-3);
    expect(await page.evaluate(() => document.activeElement?.className)).toBe('take-pair');
  });
});
