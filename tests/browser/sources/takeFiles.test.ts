/** A whole take on the page: its tracks chosen at once, read in a worker, every drum's pairs, and the same as the command reads. */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { TAKES_ABSENT, takesHere } from '../../bench/engine/takes';
import { withPage } from '../../support/page/withPage';

const FOLDER = fileURLToPath(new URL('../../../../shared/takes/kit-b-solo/', import.meta.url));

test('seven tracks of a real kit: every drum, and what was read of it', { timeout: 240_000 }, async ({ skip }) => {
  if (!takesHere) skip(TAKES_ABSENT);
  const files = readdirSync(FOLDER)
    .filter((name) => name.endsWith('.wav'))
    .map((name) => FOLDER + name);
  await withPage({}, async ({ page }) => {
    await page.locator('[data-command="open-take"]').click();
    await page.locator('[data-take="none"]').waitFor();
    await page.locator('#take-files').setInputFiles(files);
    await page.locator('[data-take="reading"] progress').waitFor();
    await page.locator('[data-take="read"]').waitFor({ timeout: 200_000 });
    expect(await page.locator('[data-fault]').count()).toBe(0);
    const drums = await page.locator('[data-drum]').allTextContents();
    expect(drums.slice(0, 2)).toEqual(['Kick', 'Snare']);
    expect(drums).toHaveLength(6);
    await page.locator('[data-drum="snare"]').click();
    await page.locator('[data-open="snare"]').waitFor();
  });
});
