/** The kit from above on the built page: dragged and moved by keys, undone, kept; a line and a mic lead to their pair; sizes; colours. */
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { readSheet } from '../../../src/sheet/document/file';
import type { KitSheet } from '../../../src/sheet/document/model';
import { press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';

async function newKit(page: Page, start: string): Promise<void> {
  await press(page, 'open-sheet');
  await page.locator(`[data-start="${start}"]`).click();
  await page.locator('[data-mic]').first().waitFor();
}

async function example(page: Page): Promise<void> {
  await press(page, 'open-sheet');
  await press(page, 'example-kit');
  await page.locator('[data-mic]').first().waitFor();
}

async function exported(page: Page): Promise<KitSheet> {
  const [file] = await Promise.all([page.waitForEvent('download'), press(page, 'export-kit')]);
  const read = readSheet(readFileSync(await file.path(), 'utf8'));
  if ('problem' in read) throw new Error(read.problem);
  return read.sheet;
}

const placeOf = async (page: Page, id: string) =>
  (await exported(page)).microphones.find((one) => one.id === id)?.place ?? null;

const texts = async (of: Locator): Promise<string[]> =>
  (await of.locator('text').allTextContents()).map((text) => text.trim());

/** Where its circle stands, px. */
const ringOf = async (page: Page, id: string): Promise<{ x: number; y: number }> => {
  const box = await page.locator(`[data-mic="${id}"] .drawn-ring`).boundingBox();
  if (!box) throw new Error(`no ${id} on the drawing`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};

/** The same with a finger. */
async function touchDrag(page: Page, from: { x: number; y: number }, dx: number, dy: number): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: { x: number; y: number }[]): Promise<unknown> =>
    session.send('Input.dispatchTouchEvent', { type, touchPoints: points });
  await touch('touchStart', [from]);
  for (let step = 1; step <= 6; step++)
    await touch('touchMove', [{ x: from.x + (dx * step) / 6, y: from.y + (dy * step) / 6 }]);
  await touch('touchEnd', []);
  await session.detach();
}

async function drag(page: Page, from: { x: number; y: number }, dx: number, dy: number): Promise<void> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move(from.x + dx / 2, from.y + dy / 2, { steps: 3 });
  await page.mouse.move(from.x + dx, from.y + dy, { steps: 3 });
  await page.mouse.up();
}

test('a mic is dragged where it stands, kept in the file and after a reload; undo puts it back; it isn’t a press', async () => {
  await withPage({ viewport: { width: 1280, height: 720 } }, async ({ page }) => {
    await newKit(page, 'eight');
    expect(await placeOf(page, 'floorTom')).toBeNull();
    const before = await ringOf(page, 'floorTom');
    await drag(page, before, 60, -40);
    const after = await ringOf(page, 'floorTom');
    expect(Math.hypot(after.x - before.x - 60, after.y - before.y + 40)).toBeLessThan(2);
    expect(await page.locator('main.kit').count(), 'still the kit page').toBe(1);
    const place = await placeOf(page, 'floorTom');
    expect(place).not.toBeNull();
    await page.locator('[data-storing="stored"]').waitFor();
    await page.reload();
    await press(page, 'open-sheet');
    await page.locator('[data-mic="floorTom"]').waitFor();
    expect(await placeOf(page, 'floorTom')).toEqual(place);
    await drag(page, await ringOf(page, 'floorTom'), -30, 10);
    await press(page, 'undo');
    expect(await placeOf(page, 'floorTom')).toEqual(place);
    // a drum takes along what was put at it
    const snare = await page.locator('[data-drum="floor tom"] .drawn-skin').boundingBox();
    if (!snare) throw new Error('no floor tom');
    await drag(page, { x: snare.x + snare.width / 2, y: snare.y + snare.height * 0.8 }, 50, 0);
    const along = await placeOf(page, 'floorTom');
    expect(along?.x).toBeGreaterThan((place?.x ?? 1) + 0.03);
  });
});

test('arrows move a mic: its name tells the place, one step to undo for one press; Enter on it and on a line goes to the pair', async () => {
  await withPage({ viewport: { width: 1280, height: 720 } }, async ({ page }) => {
    await newKit(page, 'four');
    const mic = page.locator('[data-mic="snareTop"]');
    const named = (await mic.getAttribute('aria-label')) ?? '';
    expect(named).toMatch(/^2 Snare top: .* the snare, \d+ % from the left, \d+ % from the front\. Enter: /);
    await mic.focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    const percent = (text: string): number => Number(/(\d+) % from the left/.exec(text)?.[1]);
    expect(percent((await mic.getAttribute('aria-label')) ?? '') - percent(named)).toBe(4);
    expect(await mic.evaluate((it) => it === document.activeElement), 'the focus stays').toBe(true);
    await page.keyboard.press('Control+z');
    expect(percent((await mic.getAttribute('aria-label')) ?? '') - percent(named)).toBe(2);
    await page.keyboard.press('Control+z');
    expect(await placeOf(page, 'snareTop')).toBeNull();

    await page.locator('[data-line="overheadLeft-overheadRight"]').focus();
    await page.keyboard.press('Enter');
    await page.locator('.round[data-pair="overheadLeft-overheadRight"]').waitFor();
    expect(await page.locator('.round').getAttribute('data-step'), 'Enter only leads there').not.toBe('listen');
    await page.keyboard.press('e');
    await page.locator('[data-mic="snareTop"]').focus();
    await page.keyboard.press('Enter');
    await page.locator('.round:not([data-pair="overheadLeft-overheadRight"])').waitFor();
    const pair = (await page.locator('.round').getAttribute('data-pair')) ?? '';
    expect(pair).toContain('snareTop');
  });
});

test('by touch on a phone: a line leads to its pair, a mic is dragged, the page still scrolls beside it', async () => {
  await withPage({ viewport: { width: 390, height: 844 }, touch: true }, async ({ page }) => {
    await newKit(page, 'eight');
    await page.locator('[data-mic="floorTom"]').scrollIntoViewIfNeeded();
    const scrolled = (): Promise<number> => page.evaluate(() => scrollY);
    const [before, top] = [await ringOf(page, 'floorTom'), await scrolled()];
    await touchDrag(page, before, 40, -36);
    const after = await ringOf(page, 'floorTom');
    expect(Math.hypot(after.x - before.x - 40, after.y - before.y + 36), 'it went with the finger').toBeLessThan(2);
    expect(await scrolled(), 'the page stayed').toBe(top);
    expect(await page.locator('main.kit').count(), 'a drag is no press').toBe(1);
    expect(await placeOf(page, 'floorTom')).not.toBeNull();
    // beside the mics a finger scrolls
    const drawing = await page.locator('.kit-drawing').first().boundingBox();
    await touchDrag(page, { x: (drawing?.x ?? 0) + 4, y: (drawing?.y ?? 0) + (drawing?.height ?? 0) / 2 }, 0, -200);
    await expect.poll(scrolled, { message: 'scrolled' }).toBeGreaterThan(top + 50);
    expect(await placeOf(page, 'floorTom')).not.toBeNull();
    const touched = await page
      .locator('.movable')
      .evaluateAll((all) => all.map((it) => getComputedStyle(it).touchAction));
    expect(new Set(touched)).toEqual(new Set(['none']));
    expect(
      await page
        .locator('.kit-drawing')
        .first()
        .evaluate((it) => getComputedStyle(it).touchAction),
    ).toBe('auto');
    await page.locator('[data-line="kickIn-kickOut"] .drawn-reach').dispatchEvent('click');
    await page.locator('.round[data-pair="kickIn-kickOut"]').waitFor();
  });
});

const SIZES = [
  { width: 1440, height: 900 },
  { width: 1280, height: 720 },
  { width: 820, height: 1180 },
  { width: 390, height: 844 },
];

test.for(SIZES)(
  'names and marks as drawn lie on nothing else, and within the drawing: $width × $height',
  async (viewport) => {
    await withPage({ viewport }, async ({ page }) => {
      for (const kit of ['fourteen', 'example']) {
        if (kit === 'example') {
          await press(page, 'close-kit');
          await press(page, 'example-kit');
          await page.locator('[data-mic="overhead-kick"]').waitFor();
        } else await newKit(page, kit);
        const wrong = await page
          .locator('.kit-picture .kit-drawing')
          .first()
          .evaluate((svg) => {
            const room = svg.getBoundingClientRect();
            const boxes = [...svg.querySelectorAll('.drawn-name, .drawn-ring, .drawn-paper, .drawn-drum-name')].map(
              (it) => ({
                what: `${it.getAttribute('class')} ${it.textContent}`,
                box: it.getBoundingClientRect(),
              }),
            );
            const bad: string[] = [];
            for (const [i, { what, box }] of boxes.entries()) {
              if (
                box.left < room.left - 1 ||
                box.right > room.right + 1 ||
                box.top < room.top - 1 ||
                box.bottom > room.bottom + 1
              )
                bad.push(`${what} sticks out`);
              for (const other of boxes.slice(i + 1)) {
                const wide = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
                const high = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
                // two lines of one name share the space between their letters
                if (wide > 2 && high > 4) bad.push(`${what} on ${other.what}`);
              }
            }
            return bad;
          });
        expect(wrong, kit).toEqual([]);
        expect(
          await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
        ).toBeLessThanOrEqual(0);
      }
    });
  },
);

test('lists are folded, what is next stands out by words and shape, the text of a mark is in its line’s name', async () => {
  await withPage({ viewport: { width: 1440, height: 900 } }, async ({ page }) => {
    await newKit(page, 'four');
    for (const list of ['pairs', 'mics', 'together', 'about'])
      expect(await page.locator(`#${list}`).getAttribute('open'), list).toBeNull();
    const next = page.locator('.drawn-pair.is-next');
    expect(await next.count()).toBe(1);
    expect(await texts(next)).toContain('measure next');
    expect(await next.locator('.drawn-next').count()).toBe(1);
    expect(await next.getAttribute('aria-label')).toMatch(/: to do; measure next$/);
    await press(page, 'close-kit');
    await press(page, 'example-kit');
    await page.locator('[data-line="snare-overhead"]').waitFor();
    expect(await texts(page.locator('[data-line="snare-overhead"]'))).toEqual(['same, 95 cm', 'delay 2.76 ms']);
    expect(await page.locator('[data-line="snare-overhead"]').getAttribute('aria-label')).toBe(
      'Snare top & Overhead, snare side: accepted; same, 95 cm; delay 2.76 ms',
    );
    expect(await page.locator('[data-line="kick-low-end-driver"]').getAttribute('class')).toContain('is-dashed');
  });
});

test('forced colours: lines, rings and text of the drawing take the system’s colours', async () => {
  await withPage({ viewport: { width: 1280, height: 720 } }, async ({ page }) => {
    await page.emulateMedia({ forcedColors: 'active', colorScheme: 'dark' });
    await example(page);
    const seen = await page
      .locator('.kit-picture .kit-drawing')
      .first()
      .evaluate((svg) => {
        const probe = document.createElement('div');
        document.body.append(probe);
        const system = (name: string): string => {
          probe.style.color = name;
          return getComputedStyle(probe).color;
        };
        const ink = system('CanvasText');
        const paper = system('Canvas');
        const of = (what: string, property: 'stroke' | 'fill') =>
          [...svg.querySelectorAll(what)].map((it) => getComputedStyle(it)[property]);
        const used = [
          ...of('.drawn-line', 'stroke'),
          ...of('.drawn-ring', 'stroke'),
          ...of('.drawn-skin', 'stroke'),
          ...of('text', 'fill'),
          ...of('.drawn-shape', 'stroke'),
        ];
        return { ink, paper, used: [...new Set(used)], card: [...new Set(of('.drawn-ring', 'fill'))] };
      });
    expect(seen.ink).not.toBe(seen.paper);
    expect(seen.used).toEqual([seen.ink]);
    expect(seen.card).toEqual([seen.paper]);
  });
});
