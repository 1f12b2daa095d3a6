/** What a page looks like: what scrolls, what lies over what, where things stay, and how well they stand out. */
import type { Page } from 'playwright-core';

/** Boxes that hold more than they show, and the page itself; empty where all is seen. A field's own text and what is hidden don't count. */
export function scrolling(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const root = document.documentElement;
    const found = root.scrollHeight > innerHeight || root.scrollWidth > innerWidth ? [`page ${root.scrollHeight}`] : [];
    for (const box of document.querySelectorAll<HTMLElement>('body *')) {
      if (box.closest('.unseen, [inert], select, input, textarea') || !box.checkVisibility()) continue;
      const { overflowY } = getComputedStyle(box);
      if (overflowY !== 'auto' && overflowY !== 'scroll') continue;
      if (box.scrollHeight > box.clientHeight + 1)
        found.push(`${box.className}: ${box.scrollHeight} in ${box.clientHeight}`);
    }
    return found;
  });
}

/** Texts, controls and drawings that lie over each other, as "this / that". What a scrolled page goes away under, as a bar at its foot, isn't one. */
export function overlapping(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    interface Piece {
      name: string;
      owner: Element;
      /** it stays where it is while the page is scrolled below it */
      fixed: boolean;
      box: { left: number; top: number; right: number; bottom: number };
    }
    const pieces: Piece[] = [];
    const clipped = (owner: Element, rect: DOMRect): Piece['box'] => {
      const box = { left: rect.left, top: rect.top, right: rect.right, bottom: rect.bottom };
      for (let at = owner.parentElement; at !== null; at = at.parentElement) {
        if (getComputedStyle(at).overflowY === 'visible') continue;
        const by = at.getBoundingClientRect();
        box.left = Math.max(box.left, by.left);
        box.top = Math.max(box.top, by.top);
        box.right = Math.min(box.right, by.right);
        box.bottom = Math.min(box.bottom, by.bottom);
      }
      return box;
    };
    const scrolled = document.documentElement.scrollHeight > innerHeight;
    const isFixed = (owner: Element): boolean => {
      for (let at: Element | null = owner; scrolled && at !== null; at = at.parentElement)
        if (getComputedStyle(at).position === 'fixed') return true;
      return false;
    };
    const hidden = (owner: Element): boolean =>
      owner.closest('.unseen, .canvas, [inert], option') !== null ||
      !owner.checkVisibility({ visibilityProperty: true, opacityProperty: true });
    const put = (name: string, owner: Element, rect: DOMRect): void => {
      if (rect.width > 0 && rect.height > 0)
        pieces.push({ name, owner, fixed: isFixed(owner), box: clipped(owner, rect) });
    };
    for (const owner of document.querySelectorAll('body *')) {
      if (owner.matches('.canvas')) put('canvas', owner, owner.getBoundingClientRect());
      if (hidden(owner) || owner.closest('svg') !== owner.closest('svg:scope')) continue;
      if (owner.matches('button, select, input, textarea, svg'))
        put(owner.outerHTML.slice(0, 60), owner, owner.getBoundingClientRect());
      if (owner.closest('svg, select')) continue;
      for (const node of owner.childNodes) {
        if (node.nodeType !== Node.TEXT_NODE || !node.textContent?.trim()) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const rect of range.getClientRects()) put(node.textContent.trim().slice(0, 40), owner, rect);
      }
    }
    // lines of text stand closer than their boxes; what is less than this is no overlap, px
    const SLACK = 4;
    const found: string[] = [];
    for (const [i, one] of pieces.entries()) {
      for (const other of pieces.slice(i + 1)) {
        if (one.fixed !== other.fixed) continue;
        if (one.owner.contains(other.owner) || other.owner.contains(one.owner)) continue;
        const across = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
        const down = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
        if (across > 1 && down > SLACK) found.push(`${one.name} / ${other.name}`);
      }
    }
    return found;
  });
}

/** From now on every frame notes where these lie. */
export function watchPlaces(page: Page, selector: string): Promise<void> {
  return page.evaluate((it) => {
    const seen = new Set<string>();
    Object.assign(window, { placesSeen: seen });
    const look = (): void => {
      const boxes = [...document.querySelectorAll(it)].map((one) => {
        const { x, y, width, height } = one.getBoundingClientRect();
        return [x, y, width, height].map((px) => px.toFixed(1)).join(' ');
      });
      seen.add(boxes.join(' | '));
      requestAnimationFrame(look);
    };
    look();
  }, selector);
}

/** All the places they had. */
export function placesSeen(page: Page): Promise<string[]> {
  return page.evaluate(() => [...(window as unknown as { placesSeen: Set<string> }).placesSeen]);
}

export type Look = 'light' | 'dark' | 'forced dark' | 'forced colours';

/** @returns gives up what only lasts as long as its session */
export async function takeOn(page: Page, look: Look): Promise<() => Promise<void>> {
  const session = await page.context().newCDPSession(page);
  await page.emulateMedia({
    colorScheme: look === 'dark' ? 'dark' : 'light',
    forcedColors: look === 'forced colours' ? 'active' : 'none',
  });
  await session.send('Emulation.setAutoDarkModeOverride', { enabled: look === 'forced dark' });
  await page.waitForTimeout(100);
  await page.evaluate(() => window.dispatchEvent(new Event('focus')));
  await page.waitForTimeout(200);
  return () => session.detach();
}

export interface Standing {
  /** of the picture's points, the share that differ from the commonest colour by 3:1 and more */
  share: number;
  /** the highest contrast to the commonest colour */
  most: number;
}

/** How a picture stands out from its ground, as it is painted in the end (contrast as in WCAG 2.2). @param reader a page without a policy */
export async function standing(reader: Page, png: Buffer): Promise<Standing> {
  return reader.evaluate(async (base64) => {
    const image = new Image();
    image.src = `data:image/png;base64,${base64}`;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = image.width;
    canvas.height = image.height;
    const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
    pen.drawImage(image, 0, 0);
    const { data } = pen.getImageData(0, 0, canvas.width, canvas.height);
    const counts = new Map<number, number>();
    for (let i = 0; i < data.length; i += 4) {
      const colour = ((data[i] as number) << 16) | ((data[i + 1] as number) << 8) | (data[i + 2] as number);
      counts.set(colour, (counts.get(colour) ?? 0) + 1);
    }
    const linear = (byte: number): number => (byte <= 10 ? byte / 255 / 12.92 : ((byte / 255 + 0.055) / 1.055) ** 2.4);
    const light = (colour: number): number =>
      0.2126 * linear(colour >> 16) + 0.7152 * linear((colour >> 8) & 255) + 0.0722 * linear(colour & 255);
    const [ground] = [...counts].sort((x, y) => y[1] - x[1])[0] as [number, number];
    let share = 0;
    let most = 1;
    for (const [colour, count] of counts) {
      const [low, high] = [light(colour), light(ground)].sort((x, y) => x - y) as [number, number];
      const contrast = (high + 0.05) / (low + 0.05);
      most = Math.max(most, contrast);
      if (contrast >= 3) share += (count * 4) / data.length;
    }
    return { share, most };
  }, png.toString('base64'));
}
