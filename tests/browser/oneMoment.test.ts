/** Nothing on the screen contradicts anything else on it: after an invert, and while the next pair is being patched. */
import { setTimeout as sleep } from 'node:timers/promises';
import { expect, test } from 'vitest';
import { askForInput } from '../support/page/interface';
import { answerWhen, playScene, press } from '../support/page/screen';
import { withPage } from '../support/page/withPage';
import { captureWav, hits, later } from '../support/sound/signals';

test('an invert in the meter turns polarity, figures and flag over together', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured' && a.fuller !== null && a.hits >= 5);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    // every state that the page goes through, whether it is painted or not
    await page.evaluate(() => {
      const seen = new Set<string>();
      const see = (): void => {
        const answer = document.querySelector<HTMLElement>('#answer');
        const todo = document.querySelector('#advice')?.textContent ?? '';
        seen.add(
          JSON.stringify({
            invertB: answer?.dataset.invertB,
            polarity: answer?.dataset.polarity,
            row: document.querySelector('#polarity')?.textContent?.trim(),
            flag: document.querySelector('[data-flag="invert-b"]') !== null,
            pressed: document.querySelector('[data-command="invert-b"]')?.getAttribute('aria-pressed'),
            todo: /^Press/.test(todo) ? 'meter' : /^Invert/.test(todo) ? 'turned' : todo,
          }),
        );
      };
      new MutationObserver(see).observe(document.body, {
        subtree: true,
        childList: true,
        attributes: true,
        characterData: true,
      });
      Object.assign(globalThis, { seenStates: seen });
    });
    for (let i = 0; i < 3; i++) {
      await page.keyboard.press('i');
      await answerWhen(page, 'B inverted', (a) => a.invertB);
      await page.keyboard.press('i');
      await answerWhen(page, 'B as it is', (a) => !a.invertB);
    }
    const seen = await page.evaluate(() => [...(globalThis as unknown as { seenStates: Set<string> }).seenStates]);
    const plain = {
      invertB: 'false',
      polarity: 'inverted',
      row: 'inverted',
      flag: false,
      pressed: 'false',
      todo: 'turned',
    };
    const turned = { invertB: 'true', polarity: 'same', row: 'same', flag: true, pressed: 'true', todo: 'meter' };
    expect(seen.map((one) => JSON.parse(one))).toEqual(expect.arrayContaining([plain, turned]));
    expect(seen.length).toBe(2);
  });
});

test('while the next pair is being patched nothing of the last one is on the screen, and the cautions are', async () => {
  const a = hits(10, 0.6, 1);
  await withPage({ captureWav: captureWav('patching', a, later(a, 9, -0.7)) }, async ({ page }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await press(page, 'open-sheet');
    await page.locator('[data-start="three"]').click();
    await press(page, 'begin-round');
    const cautions = page.locator('.round .patch-cautions li');
    const said = [/^Phantom power off before you plug or patch a ribbon mic/, /^Monitors down/, /^Drummer stopped/];
    const expectCautions = async (): Promise<void> => {
      const texts = await cautions.allTextContents();
      expect(texts.length).toBe(3);
      for (const [i, text] of texts.entries()) expect(text).toMatch(said[i] as RegExp);
      for (const one of await cautions.all()) expect(await one.isVisible()).toBe(true);
    };
    await expectCautions();
    await askForInput(page);
    await press(page, 'skip');
    await answerWhen(page, 'hits of the first pair', (one) => one.hits >= 2 && one.state !== '');
    expect(await cautions.count()).toBe(0);
    expect(await page.locator('#label-a').inputValue()).not.toBe('');

    await press(page, 'put-off');
    const patching = await answerWhen(page, 'patching', (one) => one.text.startsWith('Patch '));
    await expectCautions();
    expect([patching.state, patching.polarity, patching.delaySamples, patching.hits, patching.action]).toEqual([
      '',
      null,
      null,
      0,
      '',
    ]);
    expect(await page.locator('.sure, .push, .gains, .answer .notes li, .drums').count()).toBe(0);
    for (const row of ['#polarity', '#delay', '#path', '#uncertainty', '#repeats'])
      expect((await page.locator(row).textContent())?.trim(), row).toBe('–');
    expect(await page.locator('.sum').getAttribute('data-changed-seconds')).toBe('');
    expect(await page.locator('.trace').getAttribute('data-correlation')).toBe('');
    expect(await page.locator('.arrival .legend').textContent()).toBe('none found');
    expect([await page.locator('#label-a').inputValue(), await page.locator('#label-a').isDisabled()]).toEqual([
      '',
      true,
    ]);

    // an Enter right after the step would have been meant for the pair before
    await sleep(800);
    await page.keyboard.press('Enter');
    const begun = await answerWhen(page, 'the next pair’s hits', (one) => one.hits >= 1);
    expect(begun.text).not.toMatch(/^Patch/);
    expect(await cautions.count()).toBe(0);
  });
});

test('what is heard has its caution beside it in words', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    const caution = page.locator('.hear .field-note');
    expect([await caution.isVisible(), await caution.textContent()]).toEqual([
      true,
      'Closed-back headphones, level down',
    ]);
    expect(await page.locator('.hear').textContent()).toMatch(/^Hear it/);
    expect(await page.locator('#hear').getAttribute('aria-describedby')).toBe(await caution.getAttribute('id'));
  });
});
