/**
 * `npm run bench -- layout [--only TEXT]`: each scene of the example kit on the built page at every size, as read, inverted,
 * held, with long names, and in a round: what scrolls, what lies over what, what is cut off, what moves, what is too faint. Exit
 * status 1 where anything is.
 */
import { readFileSync } from 'node:fs';
import type { Browser, Page } from 'playwright-core';
import { cutOff } from '../../support/look/cutOff';
import { RECORD_INK } from '../../support/look/drawnInk';
import { overlapping, scrolling } from '../../support/look/look';
import { launchBrowser } from '../../support/page/launchPage';
import { type Answer, answerWhen, playScene, press } from '../../support/page/screen';
import { servePage } from '../../support/page/servePage';
import { table } from '../table';
import { tooFaint } from './contrast';
import { isDesk, SIZES, type Size, sizeText } from './sizes';

interface Scene {
  id: string;
  polarity: string | null;
}
const { scenes } = JSON.parse(readFileSync(new URL('../../../samples/kit/kit.json', import.meta.url), 'utf8')) as {
  scenes: Scene[];
};

/** what runs this file names its functions by a helper that pages don't have */
const NAMER = 'globalThis.__name ??= (it) => it;';
const SETTLED_MS = 250;
const LONG_NAMES = ['OH snare side', 'OH kick side'] as const;
const PLOTS = '.figure .canvas';
/** plots that move by less stand still, CSS px */
const STILL_PX = 0.5;
/** at the sizes at which colours are measured: a desk and a phone */
const COLOUR_SIZES = SIZES.filter(({ width }) => width === 1280 || width === 390);

/** What is wrong at each size. */
type Found = Map<Size, Set<string>>;

const isRead = ({ polarity }: Scene, a: Answer): boolean =>
  polarity === null ? (a.readingSeconds ?? 0) >= 10 : a.state === 'measured' && a.hitsUsed >= 8;

const placesOf = (page: Page): Promise<number[]> =>
  page.evaluate(
    (it) =>
      [...document.querySelectorAll(it)].flatMap((one) => {
        const { x, y, width, height } = one.getBoundingClientRect();
        return [x + scrollX, y + scrollY, width, height];
      }),
    PLOTS,
  );

/** One page's look after another, compared with the first. */
class Watch {
  private readonly first = new Map<Size, number[]>();
  readonly found: Found = new Map(SIZES.map((size) => [size, new Set<string>()]));

  constructor(private readonly page: Page) {}

  async look(when: string): Promise<void> {
    const { page } = this;
    for (const size of SIZES) {
      await page.setViewportSize(size);
      await page.waitForTimeout(SETTLED_MS);
      const scrolled = await scrolling(page);
      const sideways = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      this.put(size, when, 'scrolls', isDesk(size) ? scrolled : sideways > 0 ? [`sideways by ${sideways}`] : []);
      this.put(size, when, 'overlaps', await overlapping(page));
      this.put(size, when, 'cut off', await cutOff(page));
      const places = await placesOf(page);
      const before = this.first.get(size) ?? places;
      this.first.set(size, before);
      const off = places.map((px, i) => Math.abs(px - (before[i] ?? Number.NaN)));
      const most = places.length === before.length ? Math.max(0, ...off) : Number.NaN;
      this.put(size, when, 'plots move', most <= STILL_PX ? [] : [`${most.toFixed(0)} px`]);
    }
  }

  /** What comes next is another page: its plots lie elsewhere. */
  anew(): void {
    this.first.clear();
  }

  put(size: Size, when: string, what: string, said: readonly string[]): void {
    for (const one of said) this.found.get(size)?.add(`${when}: ${what}, ${one}`);
  }
}

async function readPage(page: Page, reader: Page, scene: Scene, watch: Watch): Promise<number> {
  await playScene(page, scene.id);
  await answerWhen(page, 'readings', (a) => a.readingSeconds !== null);
  await watch.look('begun');
  await answerWhen(page, `${scene.id}: its answer`, (a) => isRead(scene, a));
  await watch.look('read');
  await press(page, 'invert-b');
  await answerWhen(page, `${scene.id}: inverted`, (a) => a.invertB);
  await watch.look('inverted');
  await press(page, 'invert-b');
  await answerWhen(page, `${scene.id}: as it is`, (a) => !a.invertB);
  await press(page, 'hold');
  await watch.look('held');
  for (const [i, name] of LONG_NAMES.entries()) {
    await page.locator(['#label-a', '#label-b'][i] as string).fill(name);
    await page.locator(['#label-a', '#label-b'][i] as string).blur();
  }
  await watch.look('named');
  const { faint, measured } = await tooFaint(page, reader, COLOUR_SIZES);
  for (const size of COLOUR_SIZES.slice(0, 1)) watch.put(size, 'colours', 'too faint', faint);
  return measured;
}

async function roundPage(page: Page, scene: Scene, watch: Watch): Promise<void> {
  await press(page, 'open-sheet');
  await page.locator('[data-start="fourteen"]').click();
  await page.locator('#kit-name').waitFor();
  await press(page, 'begin-round');
  await page.locator('[data-command="play-demo"]:enabled').click();
  await page.locator('#answer').waitFor();
  await page.locator('.source-line #scene').selectOption(scene.id);
  watch.anew();
  await answerWhen(page, 'readings', (a) => a.readingSeconds !== null && a.readingSeconds < 4);
  await watch.look('round begun');
  await answerWhen(page, `${scene.id} in a round`, (a) => isRead(scene, a));
  await watch.look('round read');
  if ((await page.locator('[data-command="leave-so"]:visible').count()) > 0) {
    await press(page, 'leave-so');
    await page.locator('#leave-note').waitFor();
    await watch.look('round left');
    await press(page, 'leave-back');
  }
  const pair = await page.locator('.round').getAttribute('data-pair');
  await press(page, 'put-off');
  await page.locator(`.round:not([data-pair="${pair}"])`).waitFor();
  await watch.look('round, next pair');
}

async function withFresh(browser: Browser, url: string, body: (page: Page) => Promise<void>): Promise<void> {
  // drawn twice as fine: a line of one pixel is measured, not its edges
  const context = await browser.newContext({
    viewport: { width: 1280, height: 720 },
    deviceScaleFactor: 2,
    serviceWorkers: 'block',
  });
  try {
    const page = await context.newPage();
    await page.addInitScript(NAMER);
    await page.addInitScript(RECORD_INK);
    await page.goto(url, { waitUntil: 'load' });
    await body(page);
  } finally {
    await context.close();
  }
}

function onlyOf(words: readonly string[]): string {
  const [flag, text] = words;
  if (words.length === 0) return '';
  if (flag !== '--only' || text === undefined || words.length > 2) throw new RangeError('layout takes --only TEXT.');
  return text;
}

/** @returns a table, and what is wrong, one line each; sets the exit status */
export async function layoutTable(words: readonly string[]): Promise<string> {
  const only = onlyOf(words);
  const served = await servePage();
  const browser = await launchBrowser();
  const rows: string[][] = [];
  const lines: string[] = [];
  let colours = 0;
  try {
    const reader = await (await browser.newContext()).newPage();
    await reader.evaluate(NAMER);
    for (const scene of scenes.filter(({ id }) => id.includes(only))) {
      let watch: Watch | null = null;
      const all: Found[] = [];
      let broken = false;
      try {
        await withFresh(browser, served.url, async (page) => {
          watch = new Watch(page);
          all.push(watch.found);
          colours += await readPage(page, reader, scene, watch);
        });
        await withFresh(browser, served.url, async (page) => {
          watch = new Watch(page);
          all.push(watch.found);
          await roundPage(page, scene, watch);
        });
      } catch (thrown) {
        broken = true;
        lines.push(`${scene.id}: ${(thrown as Error).message.split('\n')[0]}`);
      }
      const said = SIZES.map((size) => all.flatMap((found) => [...(found.get(size) ?? [])]));
      rows.push([
        scene.id,
        ...said.map((each) => (each.length > 0 ? `${each.length} wrong` : broken ? 'not seen' : 'ok')),
      ]);
      // it takes some minutes: what is known is told
      console.error(rows.at(-1)?.join('  '));
      for (const [i, each] of said.entries())
        for (const one of each) lines.push(`${scene.id} ${sizeText(SIZES[i] as Size)} ${one}`);
    }
  } finally {
    await browser.close();
    await served.close();
  }
  if (lines.length > 0) process.exitCode = 1;
  const title = `Seen at a glance: nothing scrolls, overlaps, is cut off, moves or is too faint (${colours} colours measured)`;
  return [table(title, ['scene', ...SIZES.map(sizeText)], rows), ...lines].join('\n');
}
