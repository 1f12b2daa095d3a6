/** The input offset on the built page: measured from one source on both inputs, kept, taken out, removed. */
import { expect, test } from 'vitest';
import { openInterface } from '../../support/page/interface';
import { answerWhen, press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { shifted } from '../../support/sound/shifted';
import { captureWav, hits, seeded } from '../../support/sound/signals';

const OFFSET = 12.3;

/** One source through two converters: B later by 12.3 samples, at another gain, with a noise of its own. */
function splitWav(): string {
  const a = hits(10, 0.6, 1);
  const random = seeded(2);
  const b = shifted(a, OFFSET).map((v) => 0.8 * v + (random() - 0.5) * 2e-4);
  return captureWav('split', a, b);
}

test('measured, kept, shown, there after a reload, removed', async () => {
  await withPage({ captureWav: splitWav() }, async ({ page }) => {
    const shown = page.locator('.head .offset-in-force');
    const apart = () =>
      answerWhen(page, 'the delay of the converters', (a) => a.state === 'measured' && a.hitsUsed >= 4);
    // taken out, one source on both inputs is one signal twice
    const aligned = () => answerWhen(page, 'one signal', (a) => a.state === 'same-signal' && a.reason === 'gain-copy');

    await openInterface(page, 'two-overheads');
    expect((await apart()).delaySamples).toBeCloseTo(OFFSET, 0);
    expect(await shown.count()).toBe(0);

    await press(page, 'input-offset');
    await page.locator('[data-offset="listening"]').waitFor();
    expect(await page.locator('h1:focus').textContent()).toBe('Input offset');
    expect(await page.locator('[data-command="keep-offset"]').isDisabled()).toBe(true);
    await page.locator('[data-offset="sure"]').waitFor();
    expect(await page.locator('#offset-found').textContent()).toMatch(/B is 12\.(29|30|31) samples \(0\.279 ms\) late/);
    await press(page, 'keep-offset');
    expect(await shown.textContent()).toMatch(/^offset 12\.(29|30|31) samples \(0\.279 ms\) corrected$/);
    await aligned();

    await page.reload();
    await openInterface(page, 'two-overheads');
    expect(Number(await shown.getAttribute('data-offset-samples'))).toBeCloseTo(OFFSET, 1);
    await aligned();
    await press(page, 'swap');
    expect(Number(await shown.getAttribute('data-offset-samples'))).toBeCloseTo(-OFFSET, 1);
    await aligned();
    await press(page, 'swap');

    await press(page, 'input-offset');
    await press(page, 'remove-offset');
    await shown.waitFor({ state: 'detached' });
    expect((await apart()).delaySamples).toBeCloseTo(OFFSET, 0);
  });
});

test('one signal routed twice is refused, and the page goes back as it was', async () => {
  const a = hits(10, 0.6, 3);
  await withPage({ captureWav: captureWav('routed-twice', a, a) }, async ({ page }) => {
    await openInterface(page);
    await press(page, 'input-offset');
    await page.locator('[data-offset="refused"]').waitFor();
    expect(await page.locator('#offset-found').textContent()).toMatch(/A and B carry the same signal.*Split one mic/);
    expect(await page.locator('[data-command="keep-offset"]').isDisabled()).toBe(true);
    await press(page, 'end-offset');
    await page.locator('#answer').waitFor();
    expect(await page.locator('.offset-in-force').count()).toBe(0);
  });
});
