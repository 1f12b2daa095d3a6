/** A whole take on the page: its tracks chosen at once, read in a worker, every drum's pairs, and the same as the command reads. */
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { runTake } from '../../../src/cli/takeRun';
import type { TakeReport } from '../../../src/take/model';
import { TAKES_ABSENT, takesHere } from '../../bench/engine/takes';
import { withPage } from '../../support/page/withPage';

const FOLDER = fileURLToPath(new URL('../../../../shared/takes/kit-b-solo/', import.meta.url));

test('seven tracks of a real kit: every drum, and what was read of it', { timeout: 240_000 }, async ({ skip }) => {
  if (!takesHere) skip(TAKES_ABSENT);
  const paths = readdirSync(FOLDER)
    .filter((name) => name.endsWith('.wav'))
    .map((name) => FOLDER + name);
  await withPage({}, async ({ page }) => {
    await page.locator('[data-command="open-take"]').click();
    await page.locator('[data-take="none"]').waitFor();
    await page.locator('#take-files').setInputFiles(paths);
    await page.locator('[data-take="reading"] progress').waitFor();
    await page.locator('[data-take="read"]').waitFor({ timeout: 200_000 });
    expect(await page.locator('[data-fault]').count()).toBe(0);
    const drums = await page.locator('[data-drum]').allTextContents();
    expect(drums.slice(0, 2)).toEqual(['Kick', 'Snare']);
    expect(drums).toHaveLength(6);
    await page.locator('[data-drum="snare"]').click();
    await page.locator('[data-open="snare"]').waitFor();

    // the page says what the command says
    const { stdout } = await runTake(['--take', FOLDER, '--json'], () => undefined);
    const report = JSON.parse(stdout) as TakeReport;
    const shown = await page
      .locator('.take-table tbody tr')
      .evaluateAll((rows) =>
        rows.map((row) =>
          [...row.querySelectorAll('td')].map(({ dataset }) => [dataset.polarity ?? '', dataset.delay ?? '']),
        ),
      );
    const files = report.tracks.map(({ file }) => file);
    const read = files.map((file) =>
      report.drums.map(({ ownTrack, pairs }) => {
        const head = ownTrack ?? pairs[0]?.a;
        const pair = pairs.find(({ a, b }) => a === head && b === file);
        return [pair?.polarity ?? '', String(pair?.delaySamples ?? '')];
      }),
    );
    expect(shown).toEqual(read);
    expect(read.flat().filter(([polarity]) => polarity !== '').length).toBeGreaterThan(15);
  });
});
