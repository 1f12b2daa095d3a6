/** axe-core on the page as it is now. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

const source = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export async function axe(page: Page, where: string, options: object = {}): Promise<AxeResults> {
  await page.evaluate(source);
  const results = (await page.evaluate(`axe.run(document, ${JSON.stringify(options)})`)) as AxeResults;
  expect(results.passes.length, `${where}: axe-core looked at the page`).toBeGreaterThan(5);
  return results;
}

export const linesOf = (where: string, violations: AxeResults['violations']): string[] =>
  violations.flatMap((found) =>
    found.nodes.map((node) => `${where}: ${found.id} (${found.help}): ${node.html.slice(0, 160)}`),
  );

/** Everything that WCAG 2.2 A and AA refuse, as lines. */
export async function refusedByWcag(page: Page, where: string): Promise<string[]> {
  const values = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
  const { violations } = await axe(page, where, { runOnly: { type: 'tag', values } });
  return linesOf(where, violations);
}
