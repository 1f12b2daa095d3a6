/** Seen at a glance and by everybody: all of it on one screen, nothing moves but what changed, every line stands out in every look. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { cutOff } from '../support/look/cutOff';
import { overlapping, placesSeen, scrolling, standing, takeOn, watchPlaces } from '../support/look/look';
import { refusedByWcag } from '../support/page/axe';
import { openInterface } from '../support/page/interface';
import { answerWhen, playScene, press, problemSentence, startOver } from '../support/page/screen';
import { withPage } from '../support/page/withPage';

const DESK = { width: 1280, height: 720 };
const TABLET = { width: 820, height: 1180 };
const PHONE = { width: 390, height: 844 };
const LOOKS = ['light', 'dark', 'forced dark', 'forced colours'] as const;

const hasFocus = (page: Page): Promise<string> => page.evaluate(() => document.activeElement?.tagName ?? 'none');

/** Begins a round of the fourteen microphones with the example of its first pair. */
async function beginRound(page: Page): Promise<void> {
  await press(page, 'open-sheet');
  await page.locator('[data-start="fourteen"]').click();
  await page.locator('#kit-name').waitFor();
  await press(page, 'begin-round');
  await page.locator('[data-command="play-demo"]:enabled').click();
  await page.locator('#answer').waitFor();
}

test.for(['snare-top-bottom', 'snare-two-tops', 'kit-overheads'])(
  'at 1280 by 720 nothing scrolls and nothing overlaps, as read, inverted and held: %s',
  async (scene) => {
    await withPage({ viewport: DESK }, async ({ page }) => {
      await playScene(page, scene);
      const look = async (when: string): Promise<void> => {
        expect(await scrolling(page), when).toEqual([]);
        expect(await overlapping(page), when).toEqual([]);
      };
      await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 8);
      await look('read');
      await press(page, 'invert-b');
      await answerWhen(page, 'B inverted', (a) => a.invertB && a.state === 'measured');
      await look('inverted');
      await press(page, 'hold');
      await look('held');
    });
  },
);

test('the plots stay where they are for 20 s, through the drums’ list, invert and hold', async () => {
  await withPage({ viewport: DESK }, async ({ page }) => {
    await playScene(page, 'kit-overheads');
    await watchPlaces(page, '.figure .canvas, .foot, .answer');
    const began = Date.now();
    await page.locator('.numbers .drums').waitFor();
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 6);
    await press(page, 'invert-b');
    await answerWhen(page, 'B inverted', (a) => a.invertB && a.state === 'measured');
    await press(page, 'hold');
    await page.waitForTimeout(1000);
    await press(page, 'hold');
    await page.waitForTimeout(Math.max(0, 20_000 - (Date.now() - began)));
    expect(await page.locator('.figure .canvas').count()).toBe(3);
    expect(await placesSeen(page)).toHaveLength(1);
  });
});

test('in a round all of it is on one screen, and the plots stay from patching to the reading and past it', async () => {
  await withPage({ viewport: DESK }, async ({ page }) => {
    await beginRound(page);
    await watchPlaces(page, '.figure .canvas');
    await page.locator('.round[data-sure="true"]').waitFor({ timeout: 45_000 });
    expect(await scrolling(page)).toEqual([]);
    expect(await overlapping(page)).toEqual([]);
    await press(page, 'leave-so');
    await page.locator('#leave-note').waitFor();
    expect(await scrolling(page), 'leaving').toEqual([]);
    expect(await overlapping(page), 'leaving').toEqual([]);
    await press(page, 'leave-back');
    await press(page, 'accept');
    await page.locator('.round[data-step="patch"]').waitFor();
    expect(await scrolling(page), 'patching').toEqual([]);
    expect(await overlapping(page), 'patching').toEqual([]);
    expect(await placesSeen(page)).toHaveLength(1);
  });
});

test('on a phone the controls stay under the thumb, whatever badges there are', async () => {
  await withPage({ viewport: PHONE }, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    const bar = async (): Promise<string> => {
      const boxes = [];
      for (const command of ['call-out', 'hold', 'start-over', 'swap', 'invert-b']) {
        const box = await page.locator(`.bar [data-command="${command}"]`).boundingBox();
        expect(box && box.y > 0.7 * PHONE.height && box.y + box.height <= PHONE.height, command).toBe(true);
        expect(box && box.width >= 44 && box.height >= 44, command).toBe(true);
        boxes.push(box);
      }
      return JSON.stringify(boxes);
    };
    const before = await bar();
    await press(page, 'start-over');
    const question = await page.locator('.question').boundingBox();
    expect(question && question.x >= 0 && question.x + question.width <= PHONE.width, 'the question fits').toBe(true);
    await press(page, 'forget-no');
    await press(page, 'invert-b');
    await press(page, 'swap');
    await press(page, 'hold');
    await page.locator('[data-flag="held"]').waitFor();
    expect(await bar()).toBe(before);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(PHONE.width);
  });
});

test.for([DESK, TABLET, PHONE])(
  'a problem is read in full and moves nothing, nor what stays of it when it is closed: $width × $height',
  async (viewport) => {
    await withPage({ viewport }, async ({ page, context }) => {
      await openInterface(page);
      await answerWhen(page, 'readings', (a) => a.readingSeconds !== null);
      // the fake device beeps in both inputs alike, which is said too
      await page.waitForTimeout(3000);
      if ((await page.locator('[data-command="dismiss"]:visible').count()) > 0) await press(page, 'dismiss');
      await watchPlaces(page, '.figure .canvas, .answer');
      await context.clearPermissions();
      await problemSentence(page, 'input-lost');
      const seen = async (when: string): Promise<void> => {
        expect(await overlapping(page), when).toEqual([]);
        expect(await cutOff(page), when).toEqual([]);
        const note = await page.locator('.problem-place .problem').boundingBox();
        expect(note && note.x >= 0 && note.x + note.width <= viewport.width, when).toBe(true);
        expect(note && note.y >= 0 && note.y + note.height <= viewport.height, when).toBe(true);
      };
      await seen('the note');
      await press(page, 'dismiss');
      await page.locator('[data-aside]').waitFor();
      await seen('what stays');
      expect(await placesSeen(page)).toHaveLength(1);
    });
  },
);

test('held before there is an answer: it says so, and asks for no hits', async () => {
  await withPage({ viewport: DESK }, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    await answerWhen(page, 'an answer', (a) => a.state === 'measured');
    await startOver(page);
    await answerWhen(page, 'none yet', (a) => a.state !== 'measured');
    await press(page, 'hold');
    await expect.poll(() => page.locator('#advice').textContent()).toBe('Held: press Hold again to go on.');
    // what a screen reader is told comes at most every 4 s
    await expect
      .poll(() => page.locator('.answer').textContent(), { timeout: 8000 })
      .not.toMatch(/keep hitting|more hits?|waiting/i);
    await press(page, 'call-out');
    expect(await page.locator('.call-out .call-text').textContent()).toBe('Held: press Hold again to go on');
    await press(page, 'back');
    await press(page, 'hold');
    await answerWhen(page, 'an answer', (a) => a.state === 'measured' && !a.text.startsWith('Held'));
  });
});

test('held where the two have nothing in common: what was found stays, and the flag says that it is held', async () => {
  await withPage({ viewport: DESK }, async ({ page }) => {
    await playScene(page, 'unrelated');
    const { text } = await answerWhen(page, 'nothing in common', (a) => a.reason === 'no-common-signal');
    await press(page, 'hold');
    await page.locator('[data-flag="held"]').waitFor();
    expect((await answerWhen(page, 'held', (a) => a.held)).text).toBe(text);
  });
});

test('in a round: the plots are large enough on a low desk, and on a phone its presses are under the thumb', async () => {
  await withPage({ viewport: DESK }, async ({ page }) => {
    await beginRound(page);
    await answerWhen(page, 'readings', (a) => a.readingSeconds !== null);
    const plot = await page.locator('.sum .u-over').boundingBox();
    expect(plot?.height).toBeGreaterThanOrEqual(150);
    await page.setViewportSize(PHONE);
    for (const command of ['accept', 'b-inverted', 'a-inverted', 'leave-so', 'put-off']) {
      const box = await page.locator(`.round-presses [data-command="${command}"]`).boundingBox();
      expect(box && box.y > 0.7 * PHONE.height && box.y + box.height <= PHONE.height, command).toBe(true);
      expect(box && box.width >= 44 && box.height >= 44, command).toBe(true);
    }
    // the meter's own are at the page's end
    await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
    const bar = await page.locator('.bar [data-command="hold"]').boundingBox();
    const presses = await page.locator('.round-presses').boundingBox();
    expect(bar && presses && bar.y + bar.height <= presses.y, 'not hidden').toBe(true);
  });
});

test('at 200 % the menus can be read', async () => {
  await withPage({ viewport: { width: 640, height: 360 } }, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    await answerWhen(page, 'hits', (a) => a.hits >= 1);
    for (const menu of ['#scene', '#pair-kind']) {
      const box = await page.locator(menu).boundingBox();
      expect(box?.width, menu).toBeGreaterThanOrEqual(110);
    }
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(640);
  });
});

/** What is told by a shape, and by how much of its picture that shape has to be. */
const DRAWN = [
  { what: '.push-mark', share: 0.02 },
  { what: '.sure .state-mark', share: 0.05 },
  { what: '.sum .canvas', share: 0.01 },
  { what: '.trace .canvas', share: 0.005 },
  { what: '.arrival .canvas', share: 0.01 },
  { what: '.legends .line-solid', share: 0.2 },
];

test.for(LOOKS)('every line, mark and chosen tab stands out, and WCAG 2.2 AA holds: %s', async (look) => {
  await withPage({ viewport: DESK }, async ({ page, browser }) => {
    const reader = await (await browser.newContext()).newPage();
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 8);
    await press(page, 'hold');
    const end = await takeOn(page, look);
    for (const { what, share } of DRAWN) {
      const seen = await standing(reader, await page.locator(what).first().screenshot());
      expect(seen.share, `${look}: ${what}, ${JSON.stringify(seen)}`).toBeGreaterThan(share);
    }
    // a chosen tab and one that isn't differ in what is painted below their words
    const tabs = page.locator('.trace .band');
    const chosen = await standing(reader, await tabs.nth(0).screenshot());
    const other = await standing(reader, await tabs.nth(1).screenshot());
    expect(chosen.share, `${look}: chosen ${JSON.stringify(chosen)}, other ${JSON.stringify(other)}`).toBeGreaterThan(
      other.share + 0.03,
    );
    // what a browser paints of its own it doesn't tell axe-core
    if (look !== 'forced dark') expect(await refusedByWcag(page, look)).toEqual([]);
    await end();
  });
});

test('what is printed, WCAG 2.2 AA', async () => {
  await withPage({}, async ({ page }) => {
    await press(page, 'open-sheet');
    await press(page, 'example-kit');
    await page.locator('#kit-name').waitFor();
    await press(page, 'hand-over');
    await page.locator('.ho-page').waitFor();
    await page.emulateMedia({ media: 'print' });
    expect(await refusedByWcag(page, 'print')).toEqual([]);
  });
});

test('the focus is never dropped: presses that go with their press, panels, pages', async () => {
  await withPage({ viewport: DESK }, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    expect(await hasFocus(page), 'after the page turned').not.toBe('BODY');
    for (const command of ['hold', 'hold', 'invert-b', 'start-over', 'forget-no', 'call-out', 'back', 'why', 'back']) {
      await press(page, command);
      await page.waitForTimeout(150);
      expect(await hasFocus(page), `after ${command}`).not.toBe('BODY');
    }
    // the rows are made anew with every plan
    await page.locator('[data-command="take-other"]').first().focus();
    await page.keyboard.press('Enter');
    await page.waitForTimeout(2000);
    expect(await hasFocus(page), 'after another way was taken').not.toBe('BODY');
    await page.locator('#scene').selectOption('snare-top-bottom');
    await page.waitForTimeout(300);
    expect(await hasFocus(page), 'after another scene').not.toBe('BODY');
    // the letters are the page's again
    await page.keyboard.press('h');
    await page.locator('[data-command="hold"][aria-pressed="true"]').waitFor();
    await press(page, 'kit');
    await page.waitForTimeout(500);
    expect(await hasFocus(page), 'on the kit page').not.toBe('BODY');
    await press(page, 'kit');
    await page.locator('#answer').waitFor();
    expect(await hasFocus(page), 'and back').not.toBe('BODY');
  });
});

test('a screen reader hears an answer once, when it changes', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    await page.evaluate(() => {
      const said: string[] = [];
      Object.assign(window, { said });
      const region = document.querySelector('#spoken-advice') as HTMLElement;
      new MutationObserver(() => said.push(region.textContent ?? '')).observe(region, {
        childList: true,
        characterData: true,
        subtree: true,
      });
    });
    await answerWhen(page, 'many hits', (a) => a.hitsUsed >= 14);
    const said = await page.evaluate(() => (window as unknown as { said: string[] }).said);
    const answers = said.filter((text) => text.startsWith('Bring B'));
    expect(answers, said.join('\n')).toHaveLength(1);
  });
});
