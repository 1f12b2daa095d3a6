/** Texts that would become elements, or run, where a page takes text for HTML. */
import type { Page } from 'playwright-core';

/** one for an element that runs by itself, one that closes an attribute first; short enough for every field */
export const MARKUP = `<img src=x onerror="window.harmed=1">`;
export const QUOTED = `"'><svg onload="window.harmed=2"></svg>`;
/** as a file’s name, where no slash may be */
export const IN_FILE_NAME = `<img src=x onerror="window.harmed=3">`;

/** What of such a text came to life: elements that the page has none of, handlers in attributes, and what they do. */
export const alive = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const found = [...document.querySelectorAll('img, iframe, object, embed, [src="x"], body script')].map(
      (it) => it.outerHTML,
    );
    for (const element of document.querySelectorAll('*'))
      for (const { name, value } of element.attributes) if (name.startsWith('on')) found.push(`${name}=${value}`);
    const { harmed } = window as unknown as { harmed?: number };
    if (harmed !== undefined) found.push(`ran: ${harmed}`);
    return found;
  });
