/** Texts, drawn shapes and frames of the page, measured on a picture of it: as the browser painted them in the end. */
import type { Page } from 'playwright-core';

interface Spot {
  x: number;
  y: number;
}

/** What is to be measured, in the viewport's CSS px. */
interface Piece {
  name: string;
  kind: 'line' | 'text';
  /** of a text */
  box: { left: number; top: number; right: number; bottom: number } | null;
  /** of a line: a place on it, and those beside it */
  spots: { on: Spot; beside: Spot[] }[];
}

export interface PaintedInk {
  name: string;
  kind: 'line' | 'text';
  /** WCAG 2.2 */
  contrast: number;
}

/** Frames that tell what can be pressed or typed into, and which of several is chosen. */
const FRAMED =
  '.press, select, input[type="text"]:not(.label-field), .band.chosen, .gains-row[aria-pressed="true"], .drum[data-read="true"], .flag, .round, .problem';

/** What is in sight. Shapes whose colour is their ground's, as a tick that is cut out, are measured beside what they are cut from. */
function piecesOf(page: Page): Promise<Piece[]> {
  return page.evaluate((framed) => {
    const pieces: Piece[] = [];
    const inSight = ({ x, y }: Spot): boolean => x >= 2 && y >= 2 && x < innerWidth - 2 && y < innerHeight - 2;
    const covered = (owner: Element, at: Spot): boolean => {
      const top = document.elementFromPoint(at.x, at.y);
      return top === null || !(owner.contains(top) || top.contains(owner));
    };
    for (const owner of document.querySelectorAll<HTMLElement>('body *')) {
      if (owner.closest('.unseen, .canvas, [inert], option, .legend.off, :disabled')) continue;
      if (!owner.checkVisibility({ visibilityProperty: true, opacityProperty: true })) continue;
      const name = owner.id || owner.getAttribute('class') || owner.tagName.toLowerCase();
      if (owner.matches('select, textarea, input[type="text"]')) {
        const { left, top, right, bottom } = owner.getBoundingClientRect();
        const box = { left: left + 4, top: top + 4, right: right - 4, bottom: bottom - 4 };
        const middle = { x: (left + right) / 2, y: (top + bottom) / 2 };
        if (inSight({ x: left, y: top }) && inSight({ x: right, y: bottom }) && !covered(owner, middle))
          pieces.push({ name, kind: 'text', box, spots: [] });
      }
      if (!owner.closest('svg, select')) {
        for (const node of owner.childNodes) {
          const text = node.textContent?.trim() ?? '';
          if (node.nodeType !== Node.TEXT_NODE || text === '') continue;
          const range = document.createRange();
          range.selectNodeContents(node);
          for (const { left, top, right, bottom } of range.getClientRects()) {
            if (right - left < 4 || !inSight({ x: left, y: top }) || !inSight({ x: right, y: bottom })) continue;
            if (covered(owner, { x: (left + right) / 2, y: (top + bottom) / 2 })) continue;
            if (covered(owner, { x: (left + right) / 2, y: bottom - 2 })) continue;
            pieces.push({
              name: `${name} "${text.slice(0, 24)}"`,
              kind: 'text',
              box: { left, top, right, bottom },
              spots: [],
            });
          }
        }
      }
      if (owner.matches(framed)) {
        const style = getComputedStyle(owner);
        const { left, top, right, bottom } = owner.getBoundingClientRect();
        const middle = { x: (left + right) / 2, y: (top + bottom) / 2 };
        const sides = [
          {
            width: style.borderLeftWidth,
            colour: style.borderLeftColor,
            at: (w: number) => ({ x: left + w / 2, y: middle.y }),
            way: { x: 1, y: 0 },
          },
          {
            width: style.borderBottomWidth,
            colour: style.borderBottomColor,
            at: (w: number) => ({ x: middle.x, y: bottom - w / 2 }),
            way: { x: 0, y: 1 },
          },
        ];
        for (const { width, colour, at, way } of sides) {
          const w = Number.parseFloat(width);
          if (!(w > 0) || /, 0\)$/.test(colour) || colour === 'transparent') continue;
          const on = at(w);
          if (!inSight({ x: on.x - 6, y: on.y - 6 }) || !inSight({ x: on.x + 6, y: on.y + 6 }) || covered(owner, on))
            continue;
          const off = w / 2 + 2;
          const beside = [-off, off].map((d) => ({ x: on.x + d * way.x, y: on.y + d * way.y }));
          pieces.push({ name: `${name}, frame`, kind: 'line', box: null, spots: [{ on, beside }] });
        }
      }
    }
    for (const shape of document.querySelectorAll<SVGGeometryElement>('svg :is(path, line, circle, rect)')) {
      if (shape.closest('.legend.off') || !shape.checkVisibility({ visibilityProperty: true })) continue;
      const style = getComputedStyle(shape);
      const to = shape.getScreenCTM();
      const length = shape.getTotalLength();
      if (!to || length === 0) continue;
      const stroked = style.stroke !== 'none';
      if (!stroked && style.fill === 'none') continue;
      const scale = Math.hypot(to.a, to.b);
      const off = (stroked ? (Number.parseFloat(style.strokeWidth) * scale) / 2 : 0) + 2;
      const spots: Piece['spots'] = [];
      for (let i = 0; i < 60; i++) {
        const at = ((i + 0.5) / 60) * length;
        const [p, q] = [shape.getPointAtLength(at - 0.01), shape.getPointAtLength(at + 0.01)];
        const [a, b] = [p, q].map((one) => new DOMPoint(one.x, one.y).matrixTransform(to)) as [DOMPoint, DOMPoint];
        const run = Math.hypot(b.x - a.x, b.y - a.y);
        if (run === 0) continue;
        const [nx, ny] = [-(b.y - a.y) / run, (b.x - a.x) / run];
        const [out, inn] = [off, -off].map((d) => ({ x: a.x + d * nx, y: a.y + d * ny })) as [Spot, Spot];
        if (![a, out, inn].every(inSight)) continue;
        if (covered(shape.ownerSVGElement as Element, a)) continue;
        // a thin line's middle may fall between two points of the picture
        const near = [-0.3, 0, 0.3].map((d) => ({ x: a.x + d * nx, y: a.y + d * ny }));
        for (const on of stroked ? near : [inn]) spots.push({ on, beside: stroked ? [out, inn] : [out] });
      }
      const owner = shape.ownerSVGElement?.getAttribute('class') ?? 'svg';
      if (spots.length > 0)
        pieces.push({
          name: `${owner} ${shape.getAttribute('class') ?? shape.tagName}`,
          kind: 'line',
          box: null,
          spots,
        });
    }
    return pieces;
  }, FRAMED);
}

/** @param reader a page without a policy, which reads the picture */
async function measure(reader: Page, png: Buffer, pieces: readonly Piece[], width: number): Promise<PaintedInk[]> {
  return reader.evaluate(
    async ({ base64, pieces, width }) => {
      const image = new Image();
      image.src = `data:image/png;base64,${base64}`;
      await image.decode();
      const canvas = document.createElement('canvas');
      canvas.width = image.width;
      canvas.height = image.height;
      const pen = canvas.getContext('2d', { willReadFrequently: true }) as CanvasRenderingContext2D;
      pen.drawImage(image, 0, 0);
      const { data } = pen.getImageData(0, 0, canvas.width, canvas.height);
      const px = image.width / width;
      const linear = (byte: number): number =>
        byte <= 10 ? byte / 255 / 12.92 : ((byte / 255 + 0.055) / 1.055) ** 2.4;
      const lightAt = (x: number, y: number): number => {
        const at = 4 * (Math.floor(y) * canvas.width + Math.floor(x));
        return (
          0.2126 * linear(data[at] as number) +
          0.7152 * linear(data[at + 1] as number) +
          0.0722 * linear(data[at + 2] as number)
        );
      };
      const contrast = (one: number, other: number): number =>
        (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
      return pieces.map(({ name, kind, box, spots }) => {
        if (box) {
          const counts = new Map<number, number>();
          for (let y = Math.ceil(box.top * px); y < box.bottom * px; y++)
            for (let x = Math.ceil(box.left * px); x < box.right * px; x++) {
              const light = lightAt(x, y);
              counts.set(light, (counts.get(light) ?? 0) + 1);
            }
          const [ground] = [...counts].reduce((most, one) => (one[1] > most[1] ? one : most), [0, 0]);
          return { name, kind, contrast: Math.max(1, ...[...counts.keys()].map((light) => contrast(light, ground))) };
        }
        // what lies between dashes is no line, nor is a point beside the middle: the best tenth of it is
        const all = spots
          .map(({ on, beside }) =>
            Math.max(...beside.map((at) => contrast(lightAt(on.x * px, on.y * px), lightAt(at.x * px, at.y * px)))),
          )
          .sort((x, y) => x - y);
        return { name, kind, contrast: all[Math.floor(0.9 * (all.length - 1))] ?? 1 };
      });
    },
    { base64: png.toString('base64'), pieces: [...pieces], width },
  );
}

/** Everything on the page, scrolled through. */
export async function paintedInk(page: Page, reader: Page): Promise<PaintedInk[]> {
  const { width = 0, height = 0 } = page.viewportSize() ?? {};
  const found: PaintedInk[] = [];
  const long = await page.evaluate(() => document.documentElement.scrollHeight);
  const step = height * 0.7;
  for (let top = 0; top === 0 || top + height - step < long; top += step) {
    await page.evaluate((y) => window.scrollTo(0, y), top);
    const pieces = await piecesOf(page);
    const png = await page.screenshot({ animations: 'disabled' });
    found.push(...(await measure(reader, png, pieces, width)));
  }
  await page.evaluate(() => window.scrollTo(0, 0));
  return found;
}
