/**
 * A canvas with two scales, axes with their grid, and lines; zones, marks and labels are the painters'. As much of a
 * chart library as the meter needs: a general one was a quarter of the page's weight.
 */
import { type Ink, inkOf } from './ink';
import { type Pen, TYPE_PX } from './painters';

export interface Axis {
  side: 'bottom' | 'left' | 'top';
  /** room beside the plot, CSS px */
  size: number;
  /** values of its scale */
  ticks(): readonly number[];
  text(value: number, index: number): string;
  /** true: no lines across the plot */
  bare?: boolean;
}

export interface Line {
  xs: ArrayLike<number>;
  /** null or NaN: a gap */
  ys: ArrayLike<number | null>;
  colour(ink: Ink): string;
  /** CSS px */
  width: number;
  dash?: number[];
  /** the area between line and zero */
  fill?(ink: Ink): string;
}

export interface ChartOptions {
  /** room at the top and at the right, CSS px */
  padding: [number, number];
  x(): [number, number];
  y(): [number, number];
  /** x is logarithmic */
  logarithmic?: boolean;
  axes: Axis[];
  lines(): Line[];
  /** before axes and lines, and after them */
  under?(pen: Pen): void;
  over(pen: Pen): void;
}

export interface Chart {
  draw(): void;
  /** paper or ink changed */
  recolour(): void;
  destroy(): void;
}

const LEAST_WIDTH = 80;
const LEAST_HEIGHT = 60;
const TICK_PX = 4;
const GAP_PX = 3;

export function chart(host: HTMLElement, options: ChartOptions): Chart {
  const canvas = host.appendChild(document.createElement('canvas'));
  const ctx = canvas.getContext('2d') as CanvasRenderingContext2D;
  let ink = inkOf(host);

  /** Where everything lies now, canvas pixels. */
  function pen(): Pen {
    const px = devicePixelRatio;
    const width = Math.round(Math.max(LEAST_WIDTH, host.clientWidth) * px);
    const height = Math.round(Math.max(LEAST_HEIGHT, host.clientHeight) * px);
    // setting the size clears the canvas as well
    if (canvas.width !== width || canvas.height !== height) Object.assign(canvas, { width, height });
    else ctx.clearRect(0, 0, width, height);
    const room = { top: options.padding[0], left: 0, bottom: 0 };
    for (const { side, size } of options.axes) room[side] += size;
    const left = Math.round(room.left * px);
    const top = Math.round(room.top * px);
    const box = {
      left,
      top,
      width: width - left - Math.round(options.padding[1] * px),
      height: height - top - Math.round(room.bottom * px),
    };
    const along = options.logarithmic ? Math.log : (value: number) => value;
    const [x0, x1] = options.x().map(along) as [number, number];
    const [y0, y1] = options.y();
    return {
      ctx,
      box,
      ink,
      px,
      x: (value) => box.left + ((along(value) - x0) / (x1 - x0)) * box.width,
      y: (value) => box.top + ((y1 - value) / (y1 - y0)) * box.height,
    };
  }

  function run(painter: ((pen: Pen) => void) | undefined, at: Pen): void {
    ctx.save();
    painter?.(at);
    ctx.restore();
  }

  function draw(): void {
    const at = pen();
    run(options.under, at);
    for (const axis of options.axes) run((p) => drawAxis(p, axis), at);
    for (const line of options.lines()) run((p) => drawLine(p, line), at);
    run(options.over, at);
  }

  const watch = new ResizeObserver(draw);
  watch.observe(host);
  return {
    draw,
    recolour() {
      ink = inkOf(host);
      draw();
    },
    destroy() {
      watch.disconnect();
      canvas.remove();
    },
  };
}

function drawAxis({ ctx, box, ink, px, x, y }: Pen, axis: Axis): void {
  const upright = axis.side === 'left';
  ctx.font = `${TYPE_PX * px}px system-ui, sans-serif`;
  ctx.textAlign = upright ? 'right' : 'center';
  ctx.textBaseline = upright ? 'middle' : axis.side === 'top' ? 'bottom' : 'top';
  ctx.strokeStyle = ink.faint;
  ctx.fillStyle = ink.soft;
  ctx.lineWidth = Math.max(1, Math.round(px));
  const half = (ctx.lineWidth % 2) / 2;
  const tick = TICK_PX * px;
  const away = tick + GAP_PX * px;
  const bottom = box.top + box.height;
  ctx.beginPath();
  for (const [i, value] of axis.ticks().entries()) {
    const at = Math.round(upright ? y(value) : x(value));
    if (upright) {
      ctx.moveTo(box.left - tick, at + half);
      ctx.lineTo(axis.bare ? box.left : box.left + box.width, at + half);
      ctx.fillText(axis.text(value, i), box.left - away, at);
    } else {
      const edge = axis.side === 'top' ? box.top : bottom;
      const out = axis.side === 'top' ? -1 : 1;
      ctx.moveTo(at + half, edge + out * tick);
      ctx.lineTo(at + half, axis.bare ? edge : edge - out * box.height);
      ctx.fillText(axis.text(value, i), at, edge + out * away);
    }
  }
  ctx.stroke();
}

function drawLine({ ctx, box, ink, px, x, y }: Pen, { xs, ys, colour, width, dash = [], fill }: Line): void {
  ctx.beginPath();
  ctx.rect(box.left, box.top, box.width, box.height);
  ctx.clip();
  const line = new Path2D();
  const area = new Path2D();
  const zero = y(0);
  let last = Number.NaN;
  for (let i = 0; i < xs.length; i++) {
    const value = ys[i];
    if (value === null || value === undefined || Number.isNaN(value)) {
      area.lineTo(last, zero);
      last = Number.NaN;
      continue;
    }
    const h = x(xs[i] as number);
    const v = y(value);
    if (Number.isNaN(last)) {
      line.moveTo(h, v);
      area.moveTo(h, zero);
    } else line.lineTo(h, v);
    area.lineTo(h, v);
    last = h;
  }
  if (fill) {
    area.lineTo(last, zero);
    ctx.fillStyle = fill(ink);
    ctx.fill(area);
  }
  ctx.strokeStyle = colour(ink);
  ctx.lineWidth = width * px;
  ctx.lineJoin = 'round';
  ctx.setLineDash(dash.map((n) => n * px));
  ctx.stroke(line);
}
