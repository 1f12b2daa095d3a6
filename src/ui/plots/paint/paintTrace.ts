/** What the correlation trace shows beside its line. */
import { HISTORY_SECONDS, type TraceHistory } from '../../../state/views/traceHistory';
import type { TraceBand } from '../../../state/views/traceView';
import { hatch, label, upright } from './ink';
import { inside, type Pen, SMALL_PX } from './pen';

export interface TraceView {
  history: TraceHistory;
  bandIndex: number;
  band: TraceBand;
}

/** of names of marks, one below the other */
const NAME_ROWS = 3;
const MARK_TEXT = { invert: 'invert B', restart: 'start over', swap: 'swap', hold: 'hold', drum: 'drum' } as const;

/** Where unrelated inputs scatter, and where no data came. */
export function paintTraceUnder(pen: Pen, { band, history }: TraceView): void {
  const { ctx, box, ink, px } = pen;
  const top = pen.y(band.scatter);
  ctx.fillStyle = hatch(ctx, ink.soft, 6 * px, px, false);
  ctx.fillRect(box.left, top, box.width, Math.max(2 * px, pen.y(-band.scatter) - top));
  ctx.fillStyle = hatch(ctx, ink.soft, 4 * px, 1.2 * px);
  for (const gap of history.gaps) {
    const from = inside(pen, gap.fromSeconds);
    ctx.fillRect(from, box.top, Math.max(2 * px, inside(pen, gap.toSeconds) - from), box.height);
  }
}

/** The newest first; one that would lie over another goes a row down, and where there is no row left its line stands alone. */
function paintMarkNames({ ctx, box, ink, px, x }: Pen, { marks }: TraceHistory, start: number): void {
  const size = SMALL_PX * px;
  ctx.font = `${size}px ${ink.font}`;
  /** where each row's names begin */
  const begun = Array.from({ length: NAME_ROWS }, () => Number.POSITIVE_INFINITY);
  for (const mark of [...marks].reverse()) {
    if (mark.atSeconds < start) continue;
    const text = MARK_TEXT[mark.kind];
    const { width } = ctx.measureText(text);
    const at = Math.min(x(mark.atSeconds) + 4 * px, box.left + box.width - width - 2 * px);
    const row = begun.findIndex((left) => at + width + 6 * px < left);
    if (row < 0) continue;
    begun[row] = at;
    label(ctx, box, text, at, box.top + 8 * px + row * 1.2 * size, ink, size, { colour: ink.accent });
  }
}

/** What a person did, and one point per hit: filled where it counted. */
export function paintTraceOver(pen: Pen, { history, bandIndex }: TraceView): void {
  const { ctx, box, ink, px } = pen;
  const start = history.nowSeconds - HISTORY_SECONDS;
  for (const mark of history.marks) {
    if (mark.atSeconds < start) continue;
    ctx.setLineDash([3 * px, 3 * px]);
    upright(ctx, box, inside(pen, mark.atSeconds), ink.accent, 1.5 * px);
    ctx.setLineDash([]);
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
  // last: a name that is half covered by points can't be read
  paintMarkNames(pen, history, start);
}
