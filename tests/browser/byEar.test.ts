/** By ear first: a whole round by keyboard, heard and answered blind, then seen, with what guessing would get. */
import { expect, test } from 'vitest';
import { axe, linesOf } from '../support/page/axe';
import { withPage } from '../support/page/withPage';

test('a round is heard, answered and seen; the score stands beside what guessing gets; the same number gives the same pairs', {
  timeout: 120_000,
}, async () => {
  await withPage({}, async ({ page }) => {
    await page.locator('[data-command="open-by-ear"]').focus();
    await page.keyboard.press('Enter');
    const asked = page.locator('.by-ear-asked');
    await asked.waitFor();
    const round = page.locator('#round-number');
    await round.fill('12');
    await round.press('Enter');
    await expect.poll(() => page.locator('.by-ear').getAttribute('data-round')).toBe('12');
    const place = (): Promise<string | null> => page.locator('.by-ear-place').textContent();
    const first = await place();

    // it plays, silent until somebody turns it up
    await page.locator('[data-command="listen"]').click();
    await expect.poll(() => page.locator('[data-command="listen"]').getAttribute('aria-pressed')).toBe('true');
    expect(await page.locator('[data-field="listen-level"]').inputValue()).toBe('0');
    // nothing tells before the answer
    expect(await page.locator('.by-ear-sums').count()).toBe(0);
    expect(await page.locator('[data-matched]').count()).toBe(0);
    const { violations } = await axe(page, 'a blind round');
    expect(linesOf('a blind round', violations)).toEqual([]);

    for (let i = 0; i < 10; i++) {
      await page.locator('[data-answer]').first().focus();
      await page.keyboard.press('Enter');
      await page.locator('.by-ear-sums').waitFor();
      expect(await page.locator('.by-ear-seen b').textContent()).toMatch(/^(✓ Right|✗ No)\./);
      await page.locator('[data-command="next"]').focus();
      await page.keyboard.press('Enter');
      await expect.poll(() => page.locator('.by-ear').getAttribute('data-at')).toBe(String(i + 1));
    }
    const score = page.locator('.by-ear-score');
    const right = Number(await score.getAttribute('data-right'));
    expect(await score.getAttribute('data-of')).toBe('10');
    expect(await page.locator('[data-mark="right"]').count()).toBe(right);
    expect(await page.locator('.by-ear-total').textContent()).toContain(`${right} of 10 right. Guessing gets 5;`);

    await round.fill('ten');
    await round.press('Enter');
    expect(await page.locator('#round-note').textContent()).toContain('enter a whole number from 1 to 9999');
    expect(await score.getAttribute('data-of')).toBe('10');
    await round.fill('13');
    await round.press('Enter');
    await round.fill('12');
    await round.press('Enter');
    expect(await place()).toBe(first);
  });
});
