/** Nothing is lost, and nothing unsure is taken for sure: reload, two tabs, storage refused, broken files, a knock during a take. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { FILE_VERSION, readSheet } from '../../../src/sheet/document/file';
import type { KitSheet } from '../../../src/sheet/document/model';
import { askForInput } from '../../support/page/interface';
import { answerWhen, press, unfold } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { shifted } from '../../support/sound/shifted';
import { CAPTURE_RATE, captureWav, hits } from '../../support/sound/signals';

async function newKit(page: Page, start: string): Promise<void> {
  await press(page, 'open-sheet');
  await page.locator(`[data-start="${start}"]`).click();
  await page.locator('#kit-name').waitFor();
}

async function exported(page: Page): Promise<KitSheet> {
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.locator('[data-command="export-kit"]:visible').first().click(),
  ]);
  const read = readSheet(readFileSync(await file.path(), 'utf8'));
  if ('problem' in read) throw new Error(read.problem);
  return read.sheet;
}

const stored = (page: Page): Promise<void> => page.locator('[data-storing="stored"]').waitFor();
const pairState = (page: Page, id: string) => page.locator(`.pair-row[data-pair="${id}"]`).getAttribute('data-state');
const name = (page: Page, text: string): Promise<void> =>
  page
    .locator('#kit-name')
    .fill(text)
    .then(() => page.locator('#kit-name').press('Tab'));

test('an unsure reading isn’t accepted by Enter, only as unsure; a scene of another pair is read for none', async () => {
  await withPage({}, async ({ page }) => {
    await newKit(page, 'eight');
    await unfold(page, 'pairs');
    const row = page.locator('.pair-row[data-pair="snareTop-snareBottom"]');
    await row.locator('[data-command="measure-pair"]').click();
    await page.locator('[data-command="play-demo"]:enabled').click();
    await page.locator('.round[data-step="listen"]').waitFor();
    await page.locator('.head #scene').selectOption('snare-dead-input');
    await answerWhen(page, 'hits of the dead input', (a) => a.action === 'fix-input');
    await page.locator('.head #scene').selectOption('unrelated');
    await page.locator('.round[data-step="patch"]', { hasText: 'This example is of another pair' }).waitFor();
    await answerWhen(page, 'no answer of another pair', (a) => a.state === '' && a.hits === 0 && a.action === '');
    expect(await page.locator('#answer .pair strong').textContent()).toBe('Next: Snare top & Snare bottom');
    expect(await page.locator('.round').getAttribute('data-sure')).toBe('false');
    await page.locator('.head #scene').selectOption('snare-dead-input');
    await answerWhen(page, 'hits of the dead input again', (a) => a.action === 'fix-input' && a.hits > 0);
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    await page.keyboard.press('Enter');
    await page.locator('.round-said', { hasText: 'the reading is uncertain' }).waitFor();
    expect(await page.locator('[data-command="accept"]').isDisabled()).toBe(true);
    await page.keyboard.press('e');
    expect(await pairState(page, 'snareTop-snareBottom')).toBe('todo');
    await page.keyboard.press('e');
    await page.keyboard.press('u');
    await page.keyboard.press('e');
    await page.locator('main.kit').waitFor();
    expect(await pairState(page, 'snareTop-snareBottom')).toBe('unsure');
    expect(await page.locator('.pair-row[data-pair="snareTop-snareBottom"]').textContent()).toContain('uncertain:');
  });
});

test('a page that goes down in the middle of a pair: the kit is open again, with what was read', async () => {
  await withPage({}, async ({ page }) => {
    await newKit(page, 'four');
    await unfold(page, 'pairs', 'mics');
    await page.locator('[data-command="add-microphone"]').click();
    await page.locator('.microphones tr:last-child .cell-label input').fill('Sidekick');
    await page.locator('.microphones tr:last-child .cell-label input').press('Tab');
    await page.locator('.pair-row[data-pair="overheadLeft-overheadRight"] [data-command="measure-pair"]').click();
    await page.locator('[data-command="play-demo"]:enabled').click();
    await page.locator('.round[data-sure="true"]').waitFor({ timeout: 45_000 });
    await page.waitForTimeout(300);
    await page.reload();
    await press(page, 'open-sheet');
    await page.locator('#kit-name').waitFor();
    expect(await pairState(page, 'overheadLeft-overheadRight')).toBe('begun');
    const kit = await exported(page);
    expect(kit.microphones.at(-1)?.label).toBe('Sidekick');
    expect(kit.pairs.find(({ id }) => id === 'overheadLeft-overheadRight')?.before).toMatchObject({ sure: true });
  });
});

test('two tabs on one kit: the slower one is told, and both versions can be kept', async () => {
  await withPage({}, async ({ page, context, errors }) => {
    await newKit(page, 'four');
    await name(page, 'Boat house');
    await stored(page);
    const other = await context.newPage();
    other.on('pageerror', (error) => errors.push(`other tab: ${error.message}`));
    await other.goto(page.url());
    await press(other, 'open-sheet');
    await other.locator('#kit-name').waitFor();
    await name(other, 'Theirs');
    await stored(other);
    // this tab doesn't know of it yet
    await name(page, 'Mine');
    const note = page.locator('[data-trouble="conflict"]');
    await note.waitFor();
    expect(await note.textContent()).toContain('This kit was changed in another tab');
    await page.locator('[data-command="keep-copy"]').click();
    await note.waitFor({ state: 'detached' });
    await stored(page);
    await unfold(page, 'others');
    const kept = await page.locator('.kept-kit [data-command="open-kit"]').allTextContents();
    expect(kept.map((text) => text.trim()).sort()).toEqual(['Mine, copy', 'Theirs']);
  });
});

test('storage that is refused is said at once, and the kit can be exported', async () => {
  const initScript = `IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); };`;
  await withPage({ initScript }, async ({ page }) => {
    await newKit(page, 'four');
    const note = page.locator('[data-trouble="store"]');
    await note.waitFor();
    expect(await note.textContent()).toMatch(/won’t save anything.*Export the sheet as a file now/);
    await page.locator('[data-storing="not-stored"]').waitFor();
    await name(page, 'Boat house');
    expect((await exported(page)).name).toBe('Boat house');
  });
});

test('a broken, foreign or newer file: one sentence, nothing changed, nothing run', async () => {
  await withPage({}, async ({ page }) => {
    await newKit(page, 'four');
    await name(page, 'Boat house');
    await stored(page);
    await unfold(page, 'others');
    const before = await exported(page);
    const file = (text: string) => ({ name: 'kit.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    const markup = JSON.stringify({
      format: 'crosshead-kit-sheet',
      version: FILE_VERSION,
      kit: { ...before, name: '<img src=x onerror="window.harmed = true">', extra: 1 },
    });
    for (const [text, says] of [
      ['{"format":"crosshead-kit-', 'damaged'],
      ['{"format":"another"}', 'isn’t a kit sheet'],
      ['{"format":"crosshead-kit-sheet","version":99}', 'newer version'],
      [markup, 'damaged (at'],
    ]) {
      await page.locator('#kit-file').setInputFiles(file(text as string));
      await page.locator('#kit-problem', { hasText: says }).waitFor();
      expect(await exported(page)).toEqual(before);
      expect(await page.locator('.kept-kit').count()).toBe(1);
    }
    // names with markup are text
    const harmless = JSON.parse(markup) as { kit: Record<string, unknown> };
    delete harmless.kit.extra;
    await page.locator('#kit-file').setInputFiles(file(JSON.stringify(harmless)));
    await page.waitForFunction(() => document.querySelector<HTMLInputElement>('#kit-name')?.value.includes('<img'));
    await press(page, 'hand-over');
    await page.locator('.ho-page', { hasText: '<img src=x' }).waitFor();
    expect(await page.evaluate(() => 'harmed' in window)).toBe(false);
    expect(await page.locator('img').count()).toBe(0);
  });
});

test('live: patched before anything counts; a knock during a take is said once with its time, and kept', {
  timeout: 180_000,
}, async () => {
  // 16 hits as they were, then 16 with B 3 cm farther
  const perSecond = CAPTURE_RATE;
  const a = hits(13, 0.8, 11);
  const near = shifted(a, 5).map((x) => 0.7 * x);
  const far = shifted(a, 5 + (3 / 34320) * perSecond).map((x) => 0.7 * x);
  const join = (one: Float32Array, two: Float32Array) => Float32Array.from([...one, ...two]);
  const noise = hits(26, 100, 99).map((x) => 0.5 * x);
  const b = join(near, far).map((x, i) => x + (noise[i] as number));
  await withPage({ captureWav: captureWav('knock', join(a, a), b) }, async ({ page }) => {
    await newKit(page, 'eight');
    await unfold(page, 'pairs');
    await page.locator('.pair-row[data-pair="snareTop-snareBottom"] [data-command="measure-pair"]').click();
    await page.locator('.round[data-step="patch"]').waitFor();
    expect(await page.locator('.round').textContent()).toContain(
      'Patch Snare top (input 3) to interface input 1 and Snare bottom (input 4) to interface input 2',
    );
    await askForInput(page);
    await press(page, 'skip');
    await page.locator('.round[data-sure="true"]').waitFor({ timeout: 60_000 });
    await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
    // nobody moves or delays anything here: left as it is, on purpose
    await page.keyboard.press('n');
    await page.locator('#leave-note').fill('as it stands');
    await page.keyboard.press('Enter');
    // the next pair isn't patched: what is heard isn't taken for it
    await page.locator('.round[data-step="patch"]').waitFor();
    expect(await page.locator('.round').getAttribute('data-sure')).toBe('false');
    await page.keyboard.press('e');
    await page.locator('[data-command="check-again"]').click();
    await page.locator('.round[data-mode="check"]').waitFor();
    await page.keyboard.press('Enter');
    const change = page.locator('.round-changes li');
    await change.first().waitFor({ timeout: 60_000 });
    expect(await change.first().textContent()).toMatch(
      /^\d\d:\d\d Snare bottom: (2\.[5-9]|3|3\.[0-5])(\.\d)? cm (further|closer) than at \d\d:\d\d\. Stop the drummer, then check both stands\.$/,
    );
    // how that figure comes about, while it is read
    await page.locator('.round-say [data-sum="recheck"]').click();
    await page.locator('.sums[data-sum="recheck"]').waitFor();
    expect(await page.locator('.sums-worked').textContent()).toMatch(
      /^[+−][\d.]+ cm [+−] [\d.]+ cm = [+−]?[\d.]+ cm, shown as /,
    );
    await page.keyboard.press('Escape');
    await page.keyboard.press('e');
    const pair = (await exported(page)).pairs.find(({ id }) => id === 'snareTop-snareBottom');
    expect(pair?.checked?.change).toBe('moved');
    expect(pair?.checked?.pathsCm).toHaveLength(2);
    expect(Math.abs(Math.abs(pair?.checked?.fartherCm ?? 0) - 3)).toBeLessThan(0.5);
  });
});
