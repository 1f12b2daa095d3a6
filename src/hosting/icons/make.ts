/** `npx tsx src/hosting/icons/make.ts`: draws the PNG icons from icon.svg in the browser that the tests use. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { launchBrowser } from '../../../tests/support/page/launchPage';

const at = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
const mark = readFileSync(at('icon.svg'), 'utf8');
/** for systems that cut their own shape out: paper to the edge, the mark within the middle four fifths */
const full = mark
  .replace(' rx="10"', '')
  .replace('<g ', '<g transform="translate(32 32) scale(0.85) translate(-32 -32)" ');

const browser = await launchBrowser();
for (const [name, svg, size] of [
  ['icon-192.png', mark, 192],
  ['icon-512.png', mark, 512],
  ['icon-full-512.png', full, 512],
] as const) {
  const page = await browser.newPage({ viewport: { width: size, height: size } });
  await page.setContent(`<style>body { margin: 0 } svg { display: block }</style>${svg}`);
  await page.screenshot({ path: at(name), omitBackground: true });
  await page.close();
}
await browser.close();
