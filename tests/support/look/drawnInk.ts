/**
 * What a plot draws, line by line: every stroke and text that goes to a canvas is compared with the paint that was under it, as
 * the canvas has it. Strokes of one colour, opacity and pattern in a row are one line.
 */
import type { Page } from 'playwright-core';

/** Runs on the page before anything of its own (see withPage's initScript). */
export const RECORD_INK = `(() => {
  const record = { on: false, of: new Map() };
  Object.assign(window, { inkRecord: record });
  const proto = CanvasRenderingContext2D.prototype;
  const KINDS = { stroke: 'line', fill: 'line', fillRect: 'line', fillText: 'text', strokeText: 'edge' };
  const clear = proto.clearRect;
  proto.clearRect = function (...box) {
    if (record.on) record.of.delete(this.canvas);
    return clear.apply(this, box);
  };
  for (const [op, kind] of Object.entries(KINDS)) {
    const draw = proto[op];
    proto[op] = function (...args) {
      if (record.on && this.canvas.isConnected) {
        const style = op.startsWith('stroke') ? this.strokeStyle : this.fillStyle;
        const colour = typeof style === 'string' ? style : 'hatched';
        const key = [kind, colour, this.globalAlpha, this.getLineDash().length > 0 ? 'dashed' : ''].join('|');
        const all = record.of.get(this.canvas) ?? [];
        record.of.set(this.canvas, all);
        if (all.at(-1)?.key !== key) {
          const { width, height } = this.canvas;
          const before = this.getImageData(0, 0, width, height).data;
          all.push({ key, kind, colour, alpha: this.globalAlpha, dashed: this.getLineDash().length > 0, before });
        }
      }
      return draw.apply(this, args);
    };
  }
})();`;

export interface DrawnInk {
  figure: string;
  kind: 'line' | 'text';
  colour: string;
  dashed: boolean;
  /** contrast to what was under it (WCAG 2.2): of a line the upper quartile, its edges being mixed; of a text the most */
  contrast: number;
}

/** The sum's strip and its gain are shades that lines go round: they carry less ink than this. */
const SHADE_ALPHA = 0.25;

export const recordInk = (page: Page, on: boolean): Promise<void> =>
  page.evaluate((it) => {
    const { inkRecord } = window as unknown as { inkRecord: { on: boolean; of: Map<unknown, unknown> } };
    inkRecord.on = it;
    if (it) inkRecord.of.clear();
  }, on);

/** What was drawn since recordInk; the axes' own grid carries nothing, and the inside of a hollow mark neither: both are left out. */
export function drawnInk(page: Page): Promise<DrawnInk[]> {
  return page.evaluate((shade) => {
    interface Group {
      kind: 'line' | 'text' | 'edge';
      colour: string;
      alpha: number;
      dashed: boolean;
      before: Uint8ClampedArray;
    }
    const { of } = (window as unknown as { inkRecord: { of: Map<HTMLCanvasElement, Group[]> } }).inkRecord;
    const probe = document.createElement('canvas').getContext('2d') as CanvasRenderingContext2D;
    const rgb = (css: string): number[] => {
      probe.fillStyle = css;
      probe.clearRect(0, 0, 1, 1);
      probe.fillRect(0, 0, 1, 1);
      return [...probe.getImageData(0, 0, 1, 1).data.slice(0, 3)];
    };
    const linear = (byte: number): number => (byte <= 10 ? byte / 255 / 12.92 : ((byte / 255 + 0.055) / 1.055) ** 2.4);
    const found: DrawnInk[] = [];
    for (const [canvas, groups] of of) {
      const figure = canvas.closest('.figure');
      if (!figure) continue;
      const ground = rgb(getComputedStyle(figure).backgroundColor);
      const mark = document.createElement('i');
      mark.className = 'ink-probe';
      mark.style.color = 'var(--rule)';
      figure.append(mark);
      const grid = rgb(getComputedStyle(mark).color).join();
      // what is hollow is told by its edge
      const hollow = ground.join();
      mark.remove();
      const light = (data: Uint8ClampedArray, at: number): number => {
        const a = (data[at + 3] as number) / 255;
        const mixed = (c: number): number =>
          linear(Math.round((data[at + c] as number) * a + (ground[c] as number) * (1 - a)));
        return 0.2126 * mixed(0) + 0.7152 * mixed(1) + 0.0722 * mixed(2);
      };
      const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
      const last = pen.getImageData(0, 0, canvas.width, canvas.height).data;
      for (const [i, { kind, colour, alpha, dashed, before }] of groups.entries()) {
        if (kind === 'edge' || (colour !== 'hatched' && [grid, hollow].includes(rgb(colour).join()))) continue;
        if (figure.matches('.sum') && alpha < shade) continue;
        const after = groups[i + 1]?.before ?? last;
        const contrasts: number[] = [];
        for (let at = 0; at < after.length; at += 4) {
          if ([0, 1, 2, 3].every((c) => before[at + c] === after[at + c])) continue;
          const [low, high] = [light(before, at), light(after, at)].sort((x, y) => x - y) as [number, number];
          contrasts.push((high + 0.05) / (low + 0.05));
        }
        // nothing new: it lies where the same was drawn before
        if (contrasts.length < 12) continue;
        contrasts.sort((x, y) => x - y);
        const place = kind === 'text' ? contrasts.length - 1 : Math.floor(0.75 * contrasts.length);
        found.push({
          figure: figure.className.replace('figure ', ''),
          kind,
          colour,
          dashed,
          contrast: contrasts[place] as number,
        });
      }
    }
    return found;
  }, SHADE_ALPHA);
}
