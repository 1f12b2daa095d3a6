/** Demo scenes in the built page against the manifest of the kit: the true path and polarity that its model was given. */
import { readFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { expect, test } from 'vitest';
import type { DemoScene } from '../../../src/audio/link';
import { type Answer, answerWhen, playScene, press, startOver } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';

/** The scenes' target: path within 5 mm of the manifest. */
const PATH_TOLERANCE_CM = 0.5;
const manifest = JSON.parse(readFileSync(new URL('../../../samples/kit/kit.json', import.meta.url), 'utf8')) as {
  scenes: DemoScene[];
};
const answerable = manifest.scenes.filter((scene) => scene.polarity !== null);

function expectTruth(answer: Answer, scene: DemoScene, inverted: boolean): void {
  const turned = scene.polarity === 'same' ? 'inverted' : 'same';
  expect(answer.polarity, `${scene.id}: polarity`).toBe(inverted ? turned : scene.polarity);
  expect(answer.pathCm, `${scene.id}: path, cm`).not.toBeNull();
  const off = Math.abs((answer.pathCm as number) - (scene.pathCm as number));
  expect(off, `${scene.id}: ${answer.pathCm} cm shown, ${scene.pathCm} cm true`).toBeLessThanOrEqual(PATH_TOLERANCE_CM);
}

test.each(answerable)('scene $id: the reading is the manifest’s, and inverting B turns it', async (scene) => {
  await withPage({}, async ({ page }) => {
    await playScene(page, scene.id);
    const look = (inverted: boolean) => (answer: Answer) => {
      if (answer.state === 'measured' && answer.invertB === inverted) expectTruth(answer, scene, inverted);
    };
    // every reading shown as measured on the way must be right, not only the last
    const settled = await answerWhen(page, '8 used hits', (a) => a.state === 'measured' && a.hitsUsed >= 8, {
      look: look(false),
    });
    expectTruth(settled, scene, false);
    expect(settled.action).not.toMatch(/^(hit-more|cannot-tell|fix-input)$/);

    await press(page, 'invert-b');
    const turned = await answerWhen(
      page,
      'the turned polarity',
      (a) => a.invertB && a.state === 'measured' && a.polarity !== settled.polarity,
    );
    expectTruth(turned, scene, true);
    expect(await page.locator('[data-flag="invert-b"]').first().textContent()).toContain('inverted');
  });
});

test('an inverted pair comes right when B is inverted in the meter, and the advice follows', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    const before = await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.hitsUsed >= 6);
    expect(before.text).toMatch(/^Invert B/);
    await press(page, 'invert-b');
    const right = (a: Answer): boolean => a.state === 'measured' && a.polarity === 'same' && a.text !== before.text;
    const after = await answerWhen(page, 'the turned reading', right);
    // what the desk still needs is what the meter does already
    expect(after.text).toMatch(/^Press \S.* polarity switch, “Invert B here” off/);
    expect(after.fuller).not.toBe('inverted');
    expect(after.fuller).not.toBe(before.fuller);
  });
});

const unanswerable = manifest.scenes.filter((scene) => scene.polarity === null);

test.each(unanswerable)('scene $id is never measured, and says so', async ({ id }) => {
  await withPage({}, async ({ page }) => {
    await playScene(page, id);
    const seen: Answer[] = [];
    await answerWhen(page, '16 hits', (a) => a.hits >= 16, { timeoutMs: 60_000, look: (a) => seen.push(a) });
    expect(seen.filter((a) => a.state === 'measured' || a.polarity !== null)).toEqual([]);
    const last = seen[seen.length - 1];
    // where one hears only the lows there is no timing, and the sum answers by itself
    const said: Record<string, RegExp> = { 'snare-dead-input': /^fix-input$/, 'kick-low-end-driver': /^leave$/ };
    expect(last.action).toMatch(said[id] ?? /^(cannot-tell|hit-more)$/);
    expect(last.text).toMatch(id === 'kick-low-end-driver' ? /^No timing here; leave B’s polarity: / : /.{10}/);
  });
});

test('hold keeps the reading, start over forgets it, swap turns the delay', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-two-tops');
    const first = await answerWhen(page, 'a reading', (a) => a.state === 'measured');

    await press(page, 'hold');
    const held = await answerWhen(page, 'hold', (a) => a.held);
    await sleep(2500); // two hits or so
    const later = await answerWhen(page, 'the held answer', (a) => a.held);
    expect(later.hits).toBeLessThanOrEqual(held.hits + 1);
    expect(later.delaySamples).toBeCloseTo(held.delaySamples as number, 1);

    await startOver(page);
    await answerWhen(page, 'an empty reading', (a) => !a.held && a.hits < 4 && a.state !== 'measured');

    await press(page, 'swap');
    const swapped = await answerWhen(page, 'the swapped reading', (a) => a.swapped && a.state === 'measured');
    expect(swapped.delaySamples).toBeCloseTo(-(first.delaySamples as number), 0);
    expect(swapped.polarity).toBe(first.polarity);
  });
});
