/** Zones, marks and labels of the plots, drawn on whatever canvas and scales they are given. */
import type { ArrivalView } from '../../state/views/arrivalView';
import { SUM_HZ, type SumView } from '../../state/views/sumView';
import { HISTORY_SECONDS, type TraceHistory } from '../../state/views/traceHistory';
import type { TraceBand } from '../../state/views/traceView';
import { hzLabel } from '../../text/frequency';
import { type Box, hatch, type Ink, label, upright } from './ink';

export const TYPE_PX = 12;

export interface Pen {
  ctx: CanvasRenderingContext2D;
  /** the plotting area, canvas pixels */
  box: Box;
  ink: Ink;
  /** canvas pixels per CSS pixel */
  px: number;
  /** from values to canvas pixels */
  x(value: number): number;
  y(value: number): number;
}

export interface TraceView {
  history: TraceHistory;
  bandIndex: number;
  band: TraceBand;
}

export interface ArrivalDrawing extends ArrivalView {
  /** cm of path per ms of delay */
  cmPerMs: number;
  /** how far B is, as it is said elsewhere */
  found: string;
}

const MARK_TEXT = { invert: 'invert B', restart: 'start over', swap: 'swap', hold: 'hold', drum: 'drum' } as const;

function inside(pen: Pen, value: number): number {
  return Math.min(pen.box.left + pen.box.width, Math.max(pen.box.left, pen.x(value)));
}

/** Thin zones, hatched, and the level of one microphone alone. */
export function paintSumUnder(pen: Pen, view: SumView): void {
  const { ctx, box, ink, px } = pen;
  ctx.fillStyle = hatch(ctx, ink.soft, 7 * px, 0.8 * px);
  ctx.globalAlpha = 0.28;
  for (const [low, high] of view.thinZonesHz) {
    const from = inside(pen, low);
    const width = inside(pen, high) - from;
    // narrower ones would be specks: the notch marks go on
    if (width > 4 * px) ctx.fillRect(from, box.top, width, box.height);
  }
  ctx.globalAlpha = 1;
  const zero = pen.y(0);
  ctx.strokeStyle = ink.soft;
  ctx.lineWidth = 1.5 * px;
  ctx.beginPath();
  ctx.moveTo(box.left, zero);
  ctx.lineTo(box.left + box.width, zero);
  ctx.stroke();
  label(ctx, box, 'one mic alone', box.left + 6 * px, zero + 9 * px, ink, 11 * px, { colour: ink.soft });
}

/** The measured line, faded where the coherence doesn't carry it; the drum's own band; the notches. */
export function paintSumOver(pen: Pen, view: SumView): void {
  const { ctx, box } = pen;
  ctx.save();
  ctx.beginPath();
  ctx.rect(box.left, box.top, box.width, box.height);
  ctx.clip();
  measured(pen, view);
  ctx.restore();
  ownBand(pen, view);
  notches(pen, view);
}

function measured({ ctx, ink, px, x, y }: Pen, { measuredDb, weight }: SumView): void {
  ctx.strokeStyle = ink.ink;
  ctx.lineCap = 'round';
  for (let i = 1; i < measuredDb.length; i++) {
    const from = measuredDb[i - 1];
    const to = measuredDb[i];
    if (from === null || to === null || from === undefined || to === undefined) continue;
    const w = Math.min(weight[i - 1] as number, weight[i] as number);
    ctx.globalAlpha = 0.14 + 0.86 * w;
    ctx.lineWidth = (1 + 2 * w) * px;
    ctx.beginPath();
    ctx.moveTo(x(SUM_HZ[i - 1] as number), y(from));
    ctx.lineTo(x(SUM_HZ[i] as number), y(to));
    ctx.stroke();
  }
  ctx.globalAlpha = 1;
}

function ownBand(pen: Pen, { ownBandHz }: SumView): void {
  if (!ownBandHz) return;
  const { ctx, box, ink, px } = pen;
  const from = inside(pen, ownBandHz[0]);
  const to = inside(pen, ownBandHz[1]);
  const y = box.top + box.height - 8 * px;
  ctx.strokeStyle = ink.accent;
  ctx.lineWidth = 3 * px;
  ctx.beginPath();
  ctx.moveTo(from, y - 6 * px);
  ctx.lineTo(from, y);
  ctx.lineTo(to, y);
  ctx.lineTo(to, y - 6 * px);
  ctx.stroke();
  const middle = (from + to) / 2;
  const options = { colour: ink.accent, centre: true };
  label(ctx, box, 'the drum’s low octave', middle, y - 14 * px, ink, TYPE_PX * px, options);
}

function notches({ ctx, box, ink, px, x }: Pen, { notchesHz }: SumView): void {
  let free = box.left;
  let drawn = Number.NEGATIVE_INFINITY;
  for (const [i, hz] of notchesHz.entries()) {
    const at = x(hz);
    if (at - drawn < 9 * px) continue;
    drawn = at;
    ctx.fillStyle = ink.ink;
    ctx.beginPath();
    ctx.moveTo(at - 5 * px, box.top);
    ctx.lineTo(at + 5 * px, box.top);
    ctx.lineTo(at, box.top + 8 * px);
    ctx.fill();
    ctx.font = `700 ${TYPE_PX * px}px ${ink.font}`;
    const text = hzLabel(hz, i);
    if (at - ctx.measureText(text).width / 2 < free) continue;
    const options = { bold: true, centre: true };
    free = label(ctx, box, text, at, box.top + 17 * px, ink, TYPE_PX * px, options) + 6 * px;
  }
}

/** Where unrelated inputs scatter, and where no data came. */
export function paintTraceUnder(pen: Pen, { band, history }: TraceView): void {
  const { ctx, box, ink, px } = pen;
  const top = pen.y(band.scatter);
  ctx.fillStyle = hatch(ctx, ink.soft, 5 * px, 0.8 * px, false);
  ctx.globalAlpha = 0.6;
  ctx.fillRect(box.left, top, box.width, Math.max(2 * px, pen.y(-band.scatter) - top));
  ctx.globalAlpha = 1;
  ctx.fillStyle = hatch(ctx, ink.soft, 4 * px, 1.2 * px);
  for (const gap of history.gaps) {
    const from = inside(pen, gap.fromSeconds);
    ctx.fillRect(from, box.top, Math.max(2 * px, inside(pen, gap.toSeconds) - from), box.height);
  }
}

/** What a person did, and one point per hit: filled where it counted. */
export function paintTraceOver(pen: Pen, { history, bandIndex }: TraceView): void {
  const { ctx, box, ink, px } = pen;
  const start = history.nowSeconds - HISTORY_SECONDS;
  for (const mark of history.marks) {
    if (mark.atSeconds < start) continue;
    const at = inside(pen, mark.atSeconds);
    ctx.setLineDash([3 * px, 3 * px]);
    upright(ctx, box, at, ink.accent, 1.5 * px);
    ctx.setLineDash([]);
    label(ctx, box, MARK_TEXT[mark.kind], at + 4 * px, box.top + 8 * px, ink, 11 * px, { colour: ink.accent });
  }
  ctx.lineWidth = 1.5 * px;
  ctx.strokeStyle = ink.ink;
  for (const hit of history.hits) {
    const value = hit.values[bandIndex];
    if (value === null || value === undefined || hit.atSeconds < start) continue;
    ctx.fillStyle = hit.counted ? ink.ink : ink.paper;
    // dotted while nothing is decided about it
    ctx.setLineDash(hit.fate === 'pending' ? [1.5 * px, 1.5 * px] : []);
    ctx.beginPath();
    ctx.arc(pen.x(hit.atSeconds), pen.y(value), (hit.counted ? 3.5 : 3) * px, 0, 2 * Math.PI);
    ctx.fill();
    ctx.stroke();
  }
  ctx.setLineDash([]);
}

/** A at zero, B where it was found. */
export function paintArrival({ ctx, box, ink, px, x }: Pen, view: ArrivalDrawing | null): void {
  const size = TYPE_PX * px;
  upright(ctx, box, x(0), ink.soft, 1.5 * px);
  label(ctx, box, 'A', x(0), box.top + 8 * px, ink, size, { bold: true, centre: true });
  if (!view || view.foundMs === null) return;
  const at = x(view.foundMs);
  upright(ctx, box, at, ink.accent, 2.5 * px);
  const text = view.found;
  ctx.font = `700 ${size}px ${ink.font}`;
  const left = view.foundMs >= 0 ? at + 5 * px : at - 5 * px - ctx.measureText(text).width;
  label(ctx, box, text, left, box.top + box.height - 10 * px, ink, size, { bold: true, colour: ink.accent });
}
