/** The bench sounds as it is drawn: one mic twice, so at equal paths an inverted B leaves nothing of A+B. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { control, stepBy } from '../../support/page/bench';
import { press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';

/** Whatever goes to the ears goes through an analyser too. */
const TAP = `
  const connect = AudioNode.prototype.connect;
  AudioNode.prototype.connect = function (to, ...rest) {
    if (to instanceof AudioDestinationNode) {
      const tap = this.context.createAnalyser();
      tap.fftSize = 32768;
      connect.call(this, tap);
      (window.taps ??= []).push(tap);
    }
    return connect.call(this, to, ...rest);
  };
`;

/** Largest sample at the ears over the next second. */
const loudest = (page: Page): Promise<number> =>
  page.evaluate(async () => {
    const { taps = [] } = window as unknown as { taps?: AnalyserNode[] };
    let most = 0;
    for (let i = 0; i < 4; i++) {
      // an analyser holds the newest 0.7 s
      await new Promise((done) => setTimeout(done, 400));
      for (const tap of i === 0 ? [] : taps) {
        const samples = new Float32Array(tap.fftSize);
        tap.getFloatTimeDomainData(samples);
        most = samples.reduce((top, x) => Math.max(top, Math.abs(x)), most);
      }
    }
    return most;
  });

const choose = (page: Page, choice: string): Promise<void> => page.locator(`[data-choice="${choice}"]`).click();

test('starts silent, plays A and B, and A+B as the bench has it, now and before', async () => {
  await withPage({ viewport: { width: 1280, height: 720 }, initScript: TAP }, async ({ page }) => {
    await press(page, 'open-bench');
    // up to the drum, over it, and on to A's distance
    await page.locator('.bench-mic[data-mic="b"]').focus();
    await stepBy(page, 20, 'ArrowUp', 'ArrowDown');
    await stepBy(page, -4, 'ArrowRight', 'ArrowLeft');
    expect(await page.locator('.bench-figures').getAttribute('data-path-cm')).toBe('0.000');
    await press(page, 'hear-bench');
    await press(page, 'listen');
    await page.locator('.listen-note', { hasText: 'Level is at zero' }).waitFor();
    expect(await loudest(page)).toBe(0);
    await page.locator('[data-field="listen-level"]').fill('1');
    const both = await loudest(page);
    expect(both).toBeGreaterThan(0.05);
    await control(page, 'invert-b').click();
    await page.waitForTimeout(600);
    expect(await loudest(page)).toBeLessThan(1e-3 * both);
    await choose(page, 'b');
    await page.waitForTimeout(600);
    expect(await loudest(page)).toBeGreaterThan(0.05);
    await choose(page, 'both');
    await choose(page, 'before');
    await page.waitForTimeout(600);
    expect(await loudest(page)).toBeGreaterThan(0.05);
    // nothing scrolls with the sound open either
    expect(await page.evaluate(() => document.documentElement.scrollHeight - innerHeight)).toBe(0);
    await press(page, 'hear-bench');
    // shut is silent: nothing goes on in the dark
    await page.waitForFunction(() =>
      (window as unknown as { taps: AnalyserNode[] }).taps.every(({ context }) => context.state !== 'running'),
    );
  });
});

test('with a speaker as a mic there is no sound, and it says so', async () => {
  await withPage({ viewport: { width: 1280, height: 720 } }, async ({ page }) => {
    await press(page, 'open-bench');
    await press(page, 'hear-bench');
    await control(page, 'lesson').selectOption('inside-outside-speaker');
    await page.locator('.listen').waitFor();
    await control(page, 'phantom-b').click();
    await control(page, 'kind-b').click();
    await page.locator('.listen').waitFor({ state: 'detached' });
    expect(await page.locator('.bench-sound').textContent()).toContain('No sound with a speaker as a mic');
  });
});
