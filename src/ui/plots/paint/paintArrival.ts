/** B's arrival against A's: the first pushes laid on each other, or how well the whole stroke fits at each delay. */
import type { ArrivalView } from '../../../state/views/arrivalView';
import type { PushesView, PushWave, Way } from '../../../state/views/pushesView';
import { label, upright } from './ink';
import { clipped, inside, type Pen, SMALL_PX, TYPE_PX } from './pen';

/** what both pictures of the arrival have in common */
interface Arrived {
  /** cm of path per ms of delay */
  cmPerMs: number;
  /** how far B is, as it is said elsewhere */
  found: string;
}

export interface CurveDrawing extends ArrivalView, Arrived {}
export interface PushesDrawing extends PushesView, Arrived {}

/** Where A's lane and B's have their middle, and how far ±1 reach: the plot goes from −1 to 1. */
const LANE_Y = { a: 0.5, b: -0.5 } as const;
const REACH = 0.46;
/** from so many hits on the waves are as faint as they get */
const FAINTEST = 0.12;
/** an arrow needs so much room beside a line, CSS px */
const CLOSE_PX = 20;
/** how long it is, CSS px, and of the way from lane to lane at most */
const ARROW_PX = 24;
const ARROW_SHARE = 0.42;

/** A at zero, B's first push where it was found, and the place where the whole stroke fits best. */
export function paintCurve({ ctx, box, ink, px, x, y }: Pen, view: CurveDrawing | null): void {
  const size = TYPE_PX * px;
  upright(ctx, box, x(0), ink.soft, 1.5 * px);
  label(ctx, box, 'A', x(0), box.top + 8 * px, ink, size, { bold: true, centre: true });
  if (!view) return;
  const { best } = view;
  if (best && Math.abs(best.lagMs) <= view.rangeMs) {
    const [at, top] = [x(best.lagMs), y(best.value)];
    const way = best.value > 0 ? -1 : 1;
    ctx.strokeStyle = ink.ink;
    ctx.fillStyle = ink.paper;
    ctx.lineWidth = 1.5 * px;
    ctx.beginPath();
    ctx.arc(at, top, 4 * px, 0, 2 * Math.PI);
    ctx.fill();
    ctx.stroke();
    const options = { colour: ink.ink, centre: true };
    const to = Math.min(box.top + box.height - 8 * px, Math.max(box.top + 8 * px, top + way * 13 * px));
    label(ctx, box, 'whole stroke', at, to, ink, SMALL_PX * px, options);
  }
  if (view.foundMs === null) return;
  arrivalOfB({ ctx, box, ink, px, x, y }, view.foundMs, best ? 'first push' : view.found);
}

function arrivalOfB({ ctx, box, ink, px, x }: Pen, foundMs: number, text: string): void {
  const size = TYPE_PX * px;
  const at = x(foundMs);
  upright(ctx, box, at, ink.accent, 2.5 * px);
  ctx.font = `700 ${size}px ${ink.font}`;
  const left = foundMs >= 0 ? at + 5 * px : at - 5 * px - ctx.measureText(text).width;
  label(ctx, box, text, left, box.top + box.height - 10 * px, ink, size, { bold: true, colour: ink.accent });
}

/** A's lane above B's; the line of A's arrival goes through both, so that B's push stands beside it. */
export function paintPushes(pen: Pen, view: PushesDrawing | null, marked: number | null): void {
  const { ctx, box, ink, px, x } = pen;
  const size = TYPE_PX * px;
  ctx.strokeStyle = ink.soft;
  ctx.lineWidth = px;
  ctx.beginPath();
  for (const y of [LANE_Y.a, LANE_Y.b]) {
    ctx.moveTo(box.left, pen.y(y));
    ctx.lineTo(box.left + box.width, pen.y(y));
  }
  ctx.stroke();
  if (!view) {
    const options = { colour: ink.soft, centre: true };
    label(ctx, box, 'no hits to lay on each other', box.left + box.width / 2, pen.y(0), ink, SMALL_PX * px, options);
  } else {
    clipped(pen, () => {
      waves(pen, view, view.a, LANE_Y.a, ink.ink, marked);
      waves(pen, view, view.b, LANE_Y.b, ink.accent, marked);
    });
    // where a channel hears the lows only, the pictures are laid at the other's arrival
    if (view.dull !== 'a') {
      upright(ctx, box, x(0), ink.ink, 1.5 * px);
      arrow(pen, 0, LANE_Y.a, view.aWay, ink.ink);
    }
    const bMs = view.dull === 'a' ? 0 : view.foundMs;
    if (view.dull !== 'b' && bMs !== null) {
      const half = { ...box, top: box.top + box.height / 2, height: box.height / 2 };
      ctx.setLineDash([4 * px, 3 * px]);
      upright(ctx, half, x(bMs), ink.accent, 2 * px);
      ctx.setLineDash([]);
      // beside A's line where it would stand on it
      const close = bMs > 0 && x(bMs) - x(0) < CLOSE_PX * px;
      arrow(pen, close ? 0 : bMs, LANE_Y.b, view.bWay, ink.accent);
    }
    if (view.dull) {
      const y = pen.y(LANE_Y[view.dull]) - 10 * px;
      label(ctx, box, 'lows only: no first push', box.left + 22 * px, y, ink, SMALL_PX * px);
    } else if (view.foundMs !== null) {
      // on the side that the push doesn't take
      const y = view.bWay < 0 ? pen.y(0) + 11 * px : box.top + box.height - 9 * px;
      const right = box.left + box.width;
      ctx.font = `700 ${size}px ${ink.font}`;
      const width = ctx.measureText(view.found).width;
      const after = inside(pen, view.foundMs) + 6 * px;
      const at = after + width < right ? after : inside(pen, view.foundMs) - 6 * px - width;
      label(ctx, box, view.found, at, y, ink, size, { bold: true, colour: ink.accent });
    }
  }
  for (const [letter, y] of [
    ['A', LANE_Y.a],
    ['B', LANE_Y.b],
  ] as const)
    label(ctx, box, letter, box.left + 5 * px, pen.y(y) - 10 * px, ink, size, { bold: true });
}

/** Every hit faintly, so that what they share is dark; the one that is pointed at stands out. */
function waves(
  { ctx, px, x, y }: Pen,
  { fromMs, lengthMs }: PushesDrawing,
  all: readonly PushWave[],
  middle: number,
  colour: string,
  marked: number | null,
): void {
  ctx.strokeStyle = colour;
  ctx.fillStyle = colour;
  ctx.lineJoin = 'round';
  const faint = Math.max(FAINTEST, 0.8 / Math.max(1, all.length));
  for (const { serial, columns } of all) {
    const n = columns.length / 2;
    const put = (c: number, value: number): void => {
      const at = x(fromMs + ((c + 0.5) * lengthMs) / n);
      const to = y(middle + REACH * value);
      if (c === from) ctx.moveTo(at, to);
      else ctx.lineTo(at, to);
    };
    let from = 0;
    while (from < n && Number.isNaN(columns[2 * from] as number)) from++;
    let end = from;
    while (end < n && !Number.isNaN(columns[2 * end] as number)) end++;
    if (end === from) continue;
    const out = serial === marked;
    ctx.globalAlpha = out ? 1 : faint;
    ctx.lineWidth = (out ? 2 : 1.5) * px;
    ctx.beginPath();
    for (let c = from; c < end; c++) put(c, columns[2 * c + 1] as number);
    for (let c = end - 1; c >= from; c--) {
      const at = x(fromMs + ((c + 0.5) * lengthMs) / n);
      ctx.lineTo(at, y(middle + REACH * (columns[2 * c] as number)));
    }
    ctx.closePath();
    ctx.fill();
    ctx.stroke();
  }
  ctx.globalAlpha = 1;
}

/** Beside the line, before the wave begins: up or down as the push goes, and never into the other lane. */
function arrow({ ctx, px, x, y }: Pen, ms: number, middle: number, way: Way, colour: string): void {
  if (way === 0) return;
  const at = x(ms) - 10 * px;
  const length = Math.min(ARROW_PX * px, ARROW_SHARE * (y(LANE_Y.b) - y(LANE_Y.a)));
  const head = length / 3;
  const tip = y(middle) - way * length;
  const neck = tip + way * head;
  ctx.strokeStyle = colour;
  ctx.fillStyle = colour;
  ctx.lineWidth = 2.5 * px;
  ctx.beginPath();
  ctx.moveTo(at, y(middle) - way * 2 * px);
  ctx.lineTo(at, neck);
  ctx.stroke();
  ctx.beginPath();
  ctx.moveTo(at - 5 * px, neck);
  ctx.lineTo(at + 5 * px, neck);
  ctx.lineTo(at, tip);
  ctx.fill();
}
