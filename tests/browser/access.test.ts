/** axe-core on every main state, in both lights: nothing serious or critical (WCAG 2.2 A and AA rules and its best practices). */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { axe, linesOf } from '../support/page/axe';
import { askForInput, openInterface } from '../support/page/interface';
import { answerWhen, playScene, press, problemSentence, unfold } from '../support/page/screen';
import { withPage } from '../support/page/withPage';
import { captureWav, hits } from '../support/sound/signals';

/** Serious and critical findings as lines, empty when there are none. */
async function findings(page: Page, where: string): Promise<string[]> {
  const { violations } = await axe(page, where);
  return linesOf(
    where,
    violations.filter((found) => found.impact === 'serious' || found.impact === 'critical'),
  );
}

test.for(['light', 'dark'] as const)('first page, help, connecting, a problem: %s', async (colorScheme) => {
  await withPage({ permission: 'refused' }, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    const all = await findings(page, 'start');
    await press(page, 'help');
    await page.locator('dialog[open]').waitFor();
    all.push(...(await findings(page, 'help')));
    await press(page, 'close-help');
    await press(page, 'connect');
    all.push(...(await findings(page, 'connect')));
    await press(page, 'leave');
    await askForInput(page);
    await problemSentence(page, 'permission-refused');
    all.push(...(await findings(page, 'problem')));
    expect(all).toEqual([]);
  });
});

test.for(['light', 'dark'] as const)('a running scene and its call-out: %s', async (colorScheme) => {
  await withPage({}, async ({ page }) => {
    await page.emulateMedia({ colorScheme });
    await playScene(page, 'snare-top-bottom');
    const all = await findings(page, 'before the first hits');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    all.push(...(await findings(page, 'running')));
    await press(page, 'invert-b');
    await press(page, 'hold');
    all.push(...(await findings(page, 'inverted and held')));
    await press(page, 'call-out');
    all.push(...(await findings(page, 'call-out')));
    expect(all).toEqual([]);
  });
});

test.for(['light', 'dark'] as const)(
  'the big display in a window of its own, voice and tone: %s',
  async (colorScheme) => {
    await withPage({}, async ({ page, context }) => {
      await page.emulateMedia({ colorScheme });
      await playScene(page, 'snare-top-bottom');
      await answerWhen(page, 'a reading', (a) => a.state === 'measured');
      await press(page, 'call-out');
      const [screen] = await Promise.all([context.waitForEvent('page'), press(page, 'second-screen')]);
      await screen.emulateMedia({ colorScheme });
      await screen.locator('[data-fate="following"]').waitFor();
      const all = await findings(screen, 'window');
      await press(page, 'voice-and-tone');
      await page.locator('.sound-panel').waitFor();
      all.push(...(await findings(page, 'voice and tone')));
      await page.close();
      await screen.locator('[data-fate="closed"]').waitFor();
      all.push(...(await findings(screen, 'window, the meter closed')));
      expect(all).toEqual([]);
    });
  },
);

test.for(['light', 'dark'] as const)(
  'the teaching bench: free, a step done, a lesson over: %s',
  async (colorScheme) => {
    await withPage({}, async ({ page }) => {
      await page.emulateMedia({ colorScheme });
      await press(page, 'open-bench');
      await page.locator('.bench-more summary').click();
      const all = await findings(page, 'free bench');
      await page.locator('[data-control="lesson"]').selectOption('polarity-not-delay');
      await page.locator('[data-control="invert-b"]').click();
      await page.locator('[data-lesson][data-fate="done"]').waitFor();
      all.push(...(await findings(page, 'a step done')));
      await press(page, 'next-step');
      await press(page, 'skip-step');
      await press(page, 'skip-step');
      all.push(...(await findings(page, 'a lesson over')));
      const tree = await page.locator('.bench-drawing').ariaSnapshot();
      for (const mic of ['A', 'B']) expect(tree).toContain(`slider "Mic ${mic}"`);
      expect(all).toEqual([]);
    });
  },
);

test('a recording chosen, an input identified, one signal twice', async () => {
  const a = hits(10, 0.6, 7);
  await withPage({ captureWav: captureWav('one-signal', a, a) }, async ({ page }) => {
    await page
      .locator('#recording-files')
      .first()
      .setInputFiles([{ name: 'take.wav', mimeType: 'audio/wav', buffer: Buffer.from('none') }]);
    const all = await findings(page, 'recording');
    await press(page, 'leave');
    await askForInput(page);
    await page.locator('.identify').waitFor();
    all.push(...(await findings(page, 'identify')));
    await press(page, 'leave');
    await openInterface(page);
    await problemSentence(page, 'one-channel');
    all.push(...(await findings(page, 'running with a problem')));
    await press(page, 'input-offset');
    await page.locator('[data-offset="refused"]').waitFor();
    all.push(...(await findings(page, 'input offset')));
    expect(all).toEqual([]);
  });
});

test.for(['light', 'dark'] as const)(
  'the kit: which one, empty, filled, hand-over, round, second look: %s',
  async (colorScheme) => {
    await withPage({}, async ({ page }) => {
      await page.emulateMedia({ colorScheme });
      await press(page, 'open-sheet');
      await page.locator('[data-start="fourteen"]').waitFor();
      const all = await findings(page, 'which kit');
      await page.locator('[data-start="fourteen"]').click();
      await page.locator('#kit-name').waitFor();
      all.push(...(await findings(page, 'an empty kit, folded')));
      await unfold(page, 'pairs', 'mics', 'together', 'about');
      await page.locator('.pair-row [aria-expanded]').first().click();
      all.push(...(await findings(page, 'an empty kit')));
      await press(page, 'begin-round');
      all.push(...(await findings(page, 'first page in a round')));
      await page.locator('[data-command="play-demo"]:enabled').click();
      await page.locator('.round[data-sure="true"]').waitFor({ timeout: 45_000 });
      await press(page, 'leave-so');
      await page.locator('#leave-note').waitFor();
      all.push(...(await findings(page, 'round, a note being written')));
      await press(page, 'kit');
      await press(page, 'close-kit');
      await press(page, 'example-kit');
      await page.locator('.pair-row[data-state="left"]').first().waitFor({ state: 'attached' });
      all.push(...(await findings(page, 'a filled kit')));
      await press(page, 'hand-over');
      await page.locator('.ho-page').waitFor();
      all.push(...(await findings(page, 'hand-over')));
      expect(all).toEqual([]);
    });
  },
);

/** Name and role of everything that can be pressed or set, as a screen reader has it. */
test('the accessibility tree of the kit and of the round: every control has its name, states and live regions are there', async () => {
  await withPage({}, async ({ page }) => {
    await press(page, 'open-sheet');
    await press(page, 'example-kit');
    await unfold(page, 'pairs', 'mics', 'together', 'about');
    const tree = await page.locator('body').ariaSnapshot();
    const nameless = tree
      .split('\n')
      .filter((line) => /- (button|textbox|combobox|checkbox|link|slider)\s*(:|$)/.test(line));
    expect(nameless).toEqual([]);
    for (const expected of [
      'heading "Pairs, in the order of the round"',
      'heading "Mics"',
      'heading "The whole kit"',
      'textbox "Mic of Snare bottom"',
      'button "7 Snare bottom',
      'button "Polarity switch of Snare bottom: inverted"',
      'button "Move Snare top up"',
      'combobox "Session’s sample rate"',
      'columnheader "Polarity switch"',
    ])
      expect(tree).toContain(expected);
    await press(page, 'check-again');
    await page.locator('[data-command="play-demo"]:enabled').click();
    await page.locator('.round[data-sure="true"]').waitFor({ timeout: 45_000 });
    const round = await page.locator('.round').ariaSnapshot();
    expect(round).toContain('region "Round"');
    expect(round).toContain('status');
    expect(round).toContain('log "Changes during the reading"');
    expect(await page.locator('.round [data-command="accept"]').getAttribute('aria-keyshortcuts')).toBe('Enter');
  });
});
