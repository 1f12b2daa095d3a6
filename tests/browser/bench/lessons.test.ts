/** Each lesson is played to its end in the built page: nothing gets one on but doing what the step says. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { LESSON_IDS, type LessonId } from '../../../src/teaching/lessons/lesson';
import { LESSON_WORDS } from '../../../src/teaching/words/lessonWords';
import { control, expectOpen, goOn, putMic, type Way } from '../../support/page/bench';
import { press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';

type Act = (page: Page) => Promise<unknown>;
const invert =
  (mic: 'a' | 'b'): Act =>
  (page) =>
    control(page, `invert-${mic}`).click();
const put =
  (way: Way, mic: 'a' | 'b', xCm: number, yCm: number): Act =>
  (page) =>
    putMic(page, way, mic, xCm, yCm);
const both =
  (...acts: Act[]): Act =>
  async (page) => {
    for (const act of acts) await act(page);
  };
const hit =
  (drum: 'snare' | 'floor-tom'): Act =>
  (page) =>
    page.locator(`[data-hit="${drum}"]`).click();
const watch: Act = (page) => press(page, 'watch-hit');
/** types what the row of figures says */
const delayA: Act = async (page) => {
  const ms = Number(await page.locator('.bench-figures').getAttribute('data-delay-ms'));
  await control(page, 'delay-a').fill(ms.toFixed(2));
  await page.keyboard.press('Enter');
};
const setDelayA =
  (ms: number): Act =>
  async (page) => {
    await control(page, 'delay-a').fill(String(ms));
    await page.keyboard.press('Enter');
  };

const PLAYED: Readonly<Record<LessonId, readonly Act[]>> = {
  'polarity-not-delay': [invert('b'), put('mouse', 'b', 12, 22), both(invert('b'), put('mouse', 'b', 8.3, 17))],
  'hidden-capsule': [
    put('keys', 'b', 9.3, 17),
    async (page) => {
      await control(page, 'body-b').focus();
      for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowLeft');
    },
    put('keys', 'b', 11, 18.9),
  ],
  'top-and-bottom': [watch, invert('a'), put('touch', 'a', -18, 26), put('touch', 'b', 18, 26), invert('a')],
  'inside-outside-speaker': [
    put('mouse', 'b', 60, 2),
    (page) => control(page, 'phantom-b').click(),
    (page) => control(page, 'kind-b').click(),
    invert('b'),
  ],
  'both-sides-of-the-kick': [watch, invert('b'), delayA],
  'two-overheads': [
    put('mouse', 'b', 28, 158),
    hit('floor-tom'),
    both(hit('snare'), put('keys', 'a', -84, 170), put('keys', 'b', 28, 170)),
  ],
  'three-to-one': [
    (page) => control(page, 'levels').selectOption('distance'),
    put('mouse', 'b', 10, 18.3),
    invert('b'),
    put('mouse', 'b', 42, 30),
  ],
  'when-not-to': [delayA, hit('floor-tom'), both(hit('snare'), setDelayA(0)), put('mouse', 'b', 40, 190)],
};

test.for(LESSON_IDS)('%s', async (id) => {
  await withPage({ viewport: { width: 1280, height: 720 }, touch: id === 'top-and-bottom' }, async ({ page }) => {
    await press(page, 'open-bench');
    await control(page, 'lesson').selectOption(id);
    for (const [step, act] of PLAYED[id].entries()) {
      await expectOpen(page, step);
      await act(page);
      await goOn(page, step);
    }
    await page.locator('[data-lesson][data-fate="over"]').waitFor();
    expect(await page.locator('.bench-learned').textContent()).toBe(LESSON_WORDS[id].learned);
    expect(await page.locator('.bench-steps li[data-fate="done"]').count()).toBe(PLAYED[id].length);
    expect(await page.locator('[data-control="lesson"] option:checked').textContent()).toContain('(done)');
  });
});

test('what a drag only passes through doesn’t count, a skipped step says so, and the curve before stays beside the new one', async () => {
  await withPage({ viewport: { width: 1280, height: 720 } }, async ({ page }) => {
    await press(page, 'open-bench');
    await control(page, 'lesson').selectOption('polarity-not-delay');
    expect(await page.locator('.bench-curve-before').count()).toBe(0);
    const first = await page.locator('.bench-curve').getAttribute('d');
    await invert('b')(page);
    await goOn(page, 0);
    const before = page.locator('.bench-comb .bench-room .bench-curve-before');
    expect(await before.getAttribute('d')).toBe(first);
    // 8 cm out and back again in one drag
    const box = await page.locator('.bench-mic[data-mic="b"] .bench-mic-reach').boundingBox();
    const at = { x: (box?.x ?? 0) + (box?.width ?? 0) / 2, y: (box?.y ?? 0) + (box?.height ?? 0) / 2 };
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await page.mouse.move(at.x + 40, at.y - 60);
    await page.mouse.move(at.x, at.y);
    await page.mouse.up();
    await expectOpen(page, 1);
    await press(page, 'skip-step');
    await expectOpen(page, 2);
    await press(page, 'skip-step');
    expect(await page.locator('.bench-lesson').textContent()).toContain('2 of 3 steps skipped.');
    // to the first page and back: the lesson is where it was
    await press(page, 'leave');
    await press(page, 'open-bench');
    await page.locator('[data-lesson="polarity-not-delay"][data-fate="over"]').waitFor();
  });
});

test('at a projector the figures are large enough for the back of a room, and nothing runs off', async () => {
  await withPage({ viewport: { width: 1280, height: 720 } }, async ({ page }) => {
    await press(page, 'open-bench');
    for (const id of LESSON_IDS) {
      await control(page, 'lesson').selectOption(id);
      const sizes = await page
        .locator('.bench-figures dd')
        .evaluateAll((all) => all.map((one) => Number.parseFloat(getComputedStyle(one).fontSize)));
      expect(sizes.length).toBeGreaterThanOrEqual(4);
      for (const size of sizes) expect(size).toBeGreaterThanOrEqual(28);
      const { high, wide } = await page.evaluate(() => ({
        high: document.documentElement.scrollHeight - innerHeight,
        wide: document.documentElement.scrollWidth - innerWidth,
      }));
      expect([high, wide], id).toEqual([0, 0]);
    }
  });
});
