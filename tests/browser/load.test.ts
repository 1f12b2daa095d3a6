import { expect, test } from 'vitest';
import { withPage } from '../support/page/withPage';

test('the built page loads with its name and without errors', async () => {
  await withPage({}, async ({ page }) => {
    expect(await page.title()).toContain('Crosshead');
    await page.getByRole('heading', { level: 1 }).waitFor();
  });
});
