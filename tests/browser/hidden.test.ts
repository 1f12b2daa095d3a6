/** A tab behind another one goes on watching: what moves there is noticed, with its time. */
import { expect, inject, test } from 'vitest';
import { openHiddenPage } from '../support/page/hiddenPage';
import { captureWav, hits, later } from '../support/sound/signals';

const RATE = 44_100;
const SEGMENT_SECONDS = 8;
/** B behind A, samples: 7 to 33 cm, each place far from all others */
const PLACES = [9, 25, 42, 17, 33];

/** B stands in five places by turns. */
function movingWav(): string {
  const seconds = SEGMENT_SECONDS * PLACES.length;
  const a = hits(seconds, 0.5, 1);
  const b = hits(seconds, 3 * seconds, 2);
  const length = SEGMENT_SECONDS * RATE;
  for (const [i, lag] of PLACES.entries()) {
    const moved = later(a, lag, 0.7);
    for (let at = i * length; at < (i + 1) * length; at++) b[at] = (b[at] as number) + (moved[at] as number);
  }
  return captureWav('moving', a, b);
}

/** of the day, of a text that begins with "14:10" */
const minutes = (text: string): number => Number(text.slice(0, 2)) * 60 + Number(text.slice(3, 5));

test('B is moved five times while another tab is in front: five notices or more, each with its time', async () => {
  const page = await openHiddenPage(inject('pageUrl'), movingWav());
  try {
    await page.press('open-sheet');
    await page.until(
      'the starts',
      `((start) => start && (start.click(), true))(document.querySelector('[data-start="three"]'))`,
    );
    await page.press('begin-round');
    await page.press('connect');
    await page.until('the page for live inputs', `document.querySelector('main.connect')`);
    await page.evaluate(`document.querySelector('[data-command="acknowledge"]')?.click()`);
    await page.press('open-interface');
    await page.press('skip');
    await page.press('accept');
    // asked, where the plan would have it otherwise
    await page.until(
      'the next pair',
      `(document.querySelector('[data-command="leave-accept"]')?.click(), document.querySelector('.round[data-step="patch"]'))`,
    );
    await page.press('kit');
    await page.press('check-again');
    await page.press('accept');
    await page.until('the second look', `document.querySelector('.round[data-mode="check"][data-step="listen"]')`);

    await page.hide();
    // no frame comes any more, and the clock of the sheet goes on
    await page.evaluate(
      'globalThis.frames = 0; (function count() { globalThis.frames++; requestAnimationFrame(count); })()',
    );
    const from = await page.evaluate<string>('new Date().toTimeString().slice(0, 5)');
    const hiddenSeconds = SEGMENT_SECONDS * (PLACES.length + 1);
    await new Promise((resolve) => setTimeout(resolve, hiddenSeconds * 1000));
    const seen = await page.evaluate<{ hidden: boolean; frames: number; notices: string[]; now: string }>(`({
      hidden: document.hidden,
      frames: globalThis.frames,
      notices: [...document.querySelectorAll('.round-changes li')].map((one) => one.textContent.trim()),
      now: new Date().toTimeString().slice(0, 5),
    })`);
    expect([seen.hidden, seen.frames <= 2]).toEqual([true, true]);
    // the strip shows the newest two while nobody looks, the kit's page has all
    expect(seen.notices.length).toBe(2);

    await page.show();
    await page.press('kit');
    await page.until('the changes', `document.querySelector('[aria-labelledby="changes-title"] li')`);
    const all = await page.evaluate<string[]>(
      `[...document.querySelectorAll('[aria-labelledby="changes-title"] li')].map((one) => one.textContent.trim())`,
    );
    const noticed = all.filter((text) => minutes(text) >= minutes(from) && minutes(text) <= minutes(seen.now));
    expect(noticed.length).toBeGreaterThanOrEqual(5);
    for (const text of noticed) expect(text).toMatch(/^\d\d:\d\d .+ (than|as) at \d\d:\d\d/);
  } finally {
    await page.close();
  }
});
