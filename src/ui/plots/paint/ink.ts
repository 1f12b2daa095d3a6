/** Colours and patterns for the plots, read from the page's style so that paper and ink change together. */
export interface Ink {
  ink: string;
  soft: string;
  faint: string;
  accent: string;
  paper: string;
  font: string;
}

/** The colours as they are in the end: the system's own where those are forced. */
export function inkOf(element: Element): Ink {
  const probe = document.createElement('i');
  probe.className = 'ink-probe';
  element.append(probe);
  const style = getComputedStyle(probe);
  const read = (name: string): string => {
    probe.style.color = `var(${name})`;
    return style.color;
  };
  const ink: Ink = {
    ink: read('--ink'),
    soft: read('--ink-soft'),
    faint: read('--rule'),
    accent: read('--accent'),
    paper: read('--card'),
    font: style.fontFamily,
  };
  probe.remove();
  return ink;
}

export interface Box {
  left: number;
  top: number;
  width: number;
  height: number;
}

const hatches = new Map<string, CanvasPattern>();

/** Diagonal hatching: rising one way or the other, so that zones differ without colour. Sizes in canvas pixels. */
export function hatch(
  ctx: CanvasRenderingContext2D,
  colour: string,
  step: number,
  thickness: number,
  rising = true,
): CanvasPattern | string {
  const key = `${colour}|${step}|${thickness}|${rising}`;
  const known = hatches.get(key);
  if (known) return known;
  const size = Math.max(3, Math.round(step));
  const tile = document.createElement('canvas');
  tile.width = size;
  tile.height = size;
  const pen = tile.getContext('2d');
  if (!pen) return colour;
  pen.strokeStyle = colour;
  pen.lineWidth = thickness;
  pen.beginPath();
  for (const shift of [-size, 0, size]) {
    pen.moveTo(shift, rising ? size : 0);
    pen.lineTo(shift + size, rising ? 0 : size);
  }
  pen.stroke();
  const pattern = ctx.createPattern(tile, 'repeat');
  if (!pattern) return colour;
  if (hatches.size > 40) hatches.clear();
  hatches.set(key, pattern);
  return pattern;
}

/** A vertical line across the box. */
export function upright(ctx: CanvasRenderingContext2D, box: Box, x: number, colour: string, width: number): void {
  ctx.strokeStyle = colour;
  ctx.lineWidth = width;
  ctx.beginPath();
  ctx.moveTo(x, box.top);
  ctx.lineTo(x, box.top + box.height);
  ctx.stroke();
}

/** Text with a paper-coloured edge, kept inside the box. @returns its right end */
export function label(
  ctx: CanvasRenderingContext2D,
  box: Box,
  text: string,
  x: number,
  y: number,
  ink: Ink,
  px: number,
  options: { colour?: string; bold?: boolean; centre?: boolean } = {},
): number {
  ctx.font = `${options.bold ? '700 ' : ''}${px}px ${ink.font}`;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  const width = ctx.measureText(text).width;
  const wanted = options.centre ? x - width / 2 : x;
  const at = Math.max(box.left + 2, Math.min(wanted, box.left + box.width - width - 2));
  ctx.lineJoin = 'round';
  ctx.lineWidth = px / 3;
  ctx.strokeStyle = ink.paper;
  ctx.strokeText(text, at, y);
  ctx.fillStyle = options.colour ?? ink.ink;
  ctx.fillText(text, at, y);
  return at + width;
}
