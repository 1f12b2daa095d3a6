/** Without a mouse: every control can be reached and shows that it has the focus, and every key does its work. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { answerWhen, playScene } from '../support/page/screen';
import { withPage } from '../support/page/withPage';

/** Marks every visible control with a number; radio buttons of one group count as one, reached with arrow keys inside. */
async function markControls(page: Page): Promise<{ id: string; what: string }[]> {
  return page.evaluate(() => {
    const found: { id: string; what: string }[] = [];
    const groups = new Map<string, string>();
    for (const element of document.querySelectorAll<HTMLElement>(
      'button, select, input, textarea, a[href], summary, [tabindex]',
    )) {
      const field = element as HTMLInputElement;
      if (field.disabled || element.tabIndex < 0 || element.closest('[inert]')) continue;
      if (!element.checkVisibility({ visibilityProperty: true })) continue;
      const group = field.type === 'radio' ? groups.get(field.name) : undefined;
      const id = group ?? `c${found.length}`;
      element.dataset.reach = id;
      if (group !== undefined) continue;
      if (field.type === 'radio') groups.set(field.name, id);
      const what =
        element.dataset.command ?? (element.id || element.textContent?.trim().slice(0, 30) || element.tagName);
      found.push({ id, what });
    }
    return found;
  });
}

/** Walks with Tab until the focus comes round. @returns what was reached, and what did not show its focus */
async function walk(page: Page, steps: number): Promise<{ reached: Set<string>; unseen: string[] }> {
  const reached = new Set<string>();
  const unseen: string[] = [];
  for (let i = 0; i < steps; i++) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const element = document.activeElement as HTMLElement | null;
      if (!element?.dataset.reach) return null;
      // a radio button or a check box may show it on its label
      const shows = [element, element.closest('label'), element.parentElement].some((one) => {
        if (!one) return false;
        const style = getComputedStyle(one);
        return (
          (style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) > 0) || style.boxShadow !== 'none'
        );
      });
      return { id: element.dataset.reach, shows, what: element.outerHTML.slice(0, 100) };
    });
    if (!at) continue;
    if (!at.shows && !reached.has(at.id)) unseen.push(at.what);
    reached.add(at.id);
  }
  return { reached, unseen };
}

async function expectAllReached(page: Page): Promise<void> {
  const controls = await markControls(page);
  expect(controls.length).toBeGreaterThan(3);
  const { reached, unseen } = await walk(page, controls.length * 2 + 6);
  expect(controls.filter((one) => !reached.has(one.id)).map((one) => one.what)).toEqual([]);
  expect(unseen).toEqual([]);
}

test('every control of the first page, of connecting and of the sheet is reached with Tab and shows its focus', async () => {
  await withPage({}, async ({ page }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await expectAllReached(page);
    await page.locator('[data-command="connect"]').focus();
    await page.keyboard.press('Enter');
    await page.locator('main.connect').waitFor();
    await expectAllReached(page);
    await page.locator('main.connect [data-command="leave"]').focus();
    await page.keyboard.press('Enter');
    await page.locator('[data-command="play-demo"]:enabled').focus();
    await page.keyboard.press('Enter');
    await answerWhen(page, 'hits', (a) => a.hits >= 2);
    await expectAllReached(page);
  });
});

test('the kit sheet and the round without a mouse', async () => {
  await withPage({}, async ({ page }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await page.keyboard.press('e');
    await page.locator('[data-start="three"]').focus();
    await expectAllReached(page);
    await page.locator('[data-start="three"]').focus();
    await page.keyboard.press('Enter');
    await page.locator('#kit-name').waitFor();
    await expectAllReached(page);
    for (const list of ['pairs', 'mics', 'together', 'about']) {
      await page.locator(`#${list} > summary`).focus();
      await page.keyboard.press('Enter');
    }
    await expectAllReached(page);
    // a microphone moved by key keeps the focus
    await page.locator('#mic-down-0').focus();
    await page.keyboard.press('Enter');
    expect(await page.locator('.microphones tbody tr').first().getAttribute('data-microphone')).toBe('snareTop');
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('Control+z');
    expect(await page.locator('.microphones tbody tr').first().getAttribute('data-microphone')).toBe('kickOut');
    await page.locator('[data-command="add-microphone"]').focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('Talkback');
    await page.keyboard.press('Tab');
    expect(await page.locator('.microphones tbody tr').last().locator('input').first().inputValue()).toBe('Talkback');
    await page.locator('[data-command="begin-round"]').focus();
    await page.keyboard.press('Enter');
    await page.locator('[data-command="play-demo"]:enabled').focus();
    await page.keyboard.press('Enter');
    await page.locator('.head #scene').waitFor();
    expect(await page.locator('.head #scene').inputValue()).toBe('snare-overhead');
    await page.locator('.round[data-sure="true"]').waitFor({ timeout: 45_000 });
    await expectAllReached(page);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('n');
    await page.keyboard.type('wanted far');
    await page.keyboard.press('Enter');
    await page.locator('main.kit').waitFor();
    const row = page.locator('.pair-row[data-state="left"]');
    expect(await row.textContent()).toContain('Left on purpose: “wanted far”');
    await page.keyboard.press('e');
    await page.locator('#answer').waitFor();
  });
});

const focused = (page: Page): Promise<string> => page.evaluate(() => document.activeElement?.id ?? '');

test('every key does its work', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    const { keyboard } = page;

    await keyboard.press('h');
    await answerWhen(page, 'hold', (a) => a.held);
    await keyboard.press('h');
    await answerWhen(page, 'no hold', (a) => !a.held);
    await keyboard.press('i');
    await answerWhen(page, 'B inverted', (a) => a.invertB);
    await keyboard.press('i');
    await answerWhen(page, 'B not inverted', (a) => !a.invertB);
    await keyboard.press('x');
    await answerWhen(page, 'swapped', (a) => a.swapped);
    await keyboard.press('x');
    await answerWhen(page, 'swapped back', (a) => !a.swapped && a.hits >= 2);
    // held: a touch in passing forgets nothing
    await keyboard.press('f');
    await answerWhen(page, 'one more hit', (a) => a.hits >= 3);
    await keyboard.down('f');
    await page.locator('[data-command="start-over"].filling').waitFor({ timeout: 500 });
    await answerWhen(page, 'started over', (a) => a.hits < 2);
    await keyboard.up('f');
    expect(await page.locator('.filling').count()).toBe(0);

    for (const [key, id] of [
      ['k', 'pair-kind'],
      ['t', 'temperature'],
      ['v', 'hear'],
    ]) {
      await keyboard.press(key);
      expect(await focused(page)).toBe(id);
      await keyboard.press('Escape');
      expect(await focused(page)).not.toBe(id);
    }
    for (const band of [1, 2, 3, 4, 0]) {
      await keyboard.press(String(band + 1));
      await page.locator(`.trace[data-band="${band}"]`).waitFor({ timeout: 5000 });
    }
    const paper = (): Promise<string | undefined> => page.evaluate(() => document.documentElement.dataset.paper);
    const papers = new Set<string | undefined>();
    for (let i = 0; i < 3; i++) {
      await keyboard.press('l');
      papers.add(await paper());
    }
    expect(papers).toEqual(new Set(['light', 'dark']));

    await keyboard.press('c');
    await page.locator('.call-out').waitFor();
    await keyboard.press('Escape');
    await page.locator('.call-out').waitFor({ state: 'detached' });
    await keyboard.press('?');
    await page.locator('dialog[open]').waitFor();
    await keyboard.press('Escape');
    await page.locator('dialog').waitFor({ state: 'detached' });
    await keyboard.press('o');
    await page.locator('[data-command="play-demo"]').waitFor();
  });
});

test('mute, solo and record of a desk do nothing here', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await answerWhen(page, 'hits', (a) => a.hits >= 2);
    for (const key of ['m', 's', 'r']) await page.keyboard.press(key);
    const after = await answerWhen(page, 'one more hit', (a) => a.hits >= 3);
    expect([after.swapped, await focused(page)]).toEqual([false, '']);
  });
});

test('the press asks in its own place before it forgets; Escape, No and a held Enter forget nothing', async () => {
  await withPage({ viewport: { width: 1440, height: 900 } }, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'hits', (a) => a.hits >= 3);
    const press = page.locator('[data-command="start-over"]');
    const question = page.locator('.question');
    const at = await page.locator('[data-command="swap"]').boundingBox();
    // by pointer: the second half of a double click isn't the answer
    await press.dblclick();
    await question.waitFor();
    expect(await page.locator('[data-command="swap"]').boundingBox()).toEqual(at);
    await page.keyboard.press('Escape');
    await question.waitFor({ state: 'detached' });
    // by keyboard: No has the focus, and gives it back
    await press.focus();
    await page.keyboard.down('Enter');
    for (let i = 0; i < 5; i++) await page.keyboard.down('Enter');
    await page.keyboard.up('Enter');
    await question.waitFor();
    expect(await page.evaluate(() => (document.activeElement as HTMLElement).dataset.command)).toBe('forget-no');
    await page.keyboard.press('Enter');
    await question.waitFor({ state: 'detached' });
    expect(await page.evaluate(() => (document.activeElement as HTMLElement).dataset.command)).toBe('start-over');
    const kept = await answerWhen(page, 'the hits', () => true);
    expect(kept.hits).toBeGreaterThanOrEqual(3);
    await press.click();
    await page.locator('[data-command="forget-yes"]').click();
    await answerWhen(page, 'nothing heard', (a) => a.hits < 3);
    expect(await question.count()).toBe(0);
  });
});

test('letters typed into a field stay text, and single keys can be switched off', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'hits', (a) => a.hits >= 1);
    await page.locator('#label-a').fill('');
    await page.locator('#label-a').pressSequentially('his rim');
    expect(await page.locator('#label-a').inputValue()).toBe('his rim');
    const typed = await answerWhen(page, 'the sheet', () => true);
    expect([typed.held, typed.invertB, typed.swapped]).toEqual([false, false, false]);
    await page.keyboard.press('Escape');

    await page.keyboard.press('?');
    await page.locator('dialog input[type="checkbox"]').uncheck();
    await page.keyboard.press('Escape');
    await page.keyboard.press('h');
    await page.keyboard.press('i');
    const off = await answerWhen(page, 'two more readings', (a) => a.hits >= 3);
    expect([off.held, off.invertB]).toEqual([false, false]);
  });
});

test('the pair kind is stepped through by key without a second K, and a wider reach is said', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await answerWhen(page, 'hits', (a) => a.hits >= 2);
    const kind = page.locator('#pair-kind');
    const values = await kind.locator('option').evaluateAll((list) => list.map((o) => (o as HTMLOptionElement).value));
    const toRoom = values.indexOf('close-room') - values.indexOf(await kind.inputValue());
    const step = toRoom > 0 ? 'ArrowDown' : 'ArrowUp';
    await page.keyboard.press('k');
    for (let i = 0; i < Math.abs(toRoom); i++) await page.keyboard.press(step);
    expect(await kind.inputValue()).toBe('close-room');
    expect(await focused(page)).toBe('pair-kind');
    // not yet: the list may only be passed through
    expect(await page.locator('[data-flag="notice"]').count()).toBe(0);
    await page.keyboard.press('Enter');
    await page.locator('[data-flag="notice"]').waitFor({ timeout: 5000 });
    expect(await page.locator('[data-flag="notice"]').textContent()).toBe(
      'Now searching longer delays: starting over.',
    );
  });
});

test('a temperature out of range is said, and the one in force stands in the field again', async () => {
  await withPage({}, async ({ page }) => {
    await playScene(page, 'snare-top-bottom');
    await page.locator('#temperature').fill('999');
    await page.keyboard.press('Escape');
    expect(await page.locator('#temperature').inputValue()).toBe('20.0');
    expect(await page.locator('#temperature-note').textContent()).toBe(
      'Can’t use 999: enter −20 to 50 °C. Still using 20.0 °C.',
    );
    await page.locator('#temperature').fill('12,5');
    await page.keyboard.press('Enter');
    expect(await page.locator('#temperature').inputValue()).toBe('12.5');
    expect(await page.locator('#temperature').getAttribute('aria-invalid')).toBe('false');
  });
});
