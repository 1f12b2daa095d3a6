/** The sum: now, the line it is compared with, what the one gains over the other, and the drum's low octave. */
import { type BandGain, SUM_HZ, type SumView } from '../../../state/views/sumView';
import { hzLabel } from '../../../text/frequency';
import { gainText } from '../../../text/level';
import { type Box, label } from './ink';
import { clipped, inside, type Pen, SMALL_PX, TYPE_PX } from './pen';

/** what the sum plot is asked to show */
export interface SumDrawing extends SumView {
  /** the comb of delay and polarity alone as well */
  combShown: boolean;
}

type Line = readonly (number | null)[];

const GAIN_PX = 18;
/** room above the lines for what stands in the strip, CSS px: two lines of it, or the figure alone */
const HEAD_PX = 40;
const LOW_HEAD_PX = 24;
/** plots lower than this have the figure alone, CSS px */
const LOW_PLOT_PX = 190;
/** a stretch without a line is told where it is this wide, CSS px */
const GAP_PX = 150;
/** lines stand for the strips and the shading, so they carry less ink */
const STRIP_INK = 0.1;
const GAIN_INK = 0.22;

/** How much of the plot's height stands above the lines, CSS px. */
export const headPx = (heightPx: number): number => (heightPx < LOW_PLOT_PX ? LOW_HEAD_PX : HEAD_PX);

/** What lies below the grid's lines: the strip, the gain, the level of one microphone alone. */
export function paintSumUnder(pen: Pen, view: SumDrawing): void {
  const { ctx, box, ink, px } = pen;
  strip(pen, view.ownBandHz);
  if (view.otherDb) {
    const [low, high] = view.other === 'without' ? [view.otherDb, view.nowDb] : [view.nowDb, view.otherDb];
    clipped(pen, () => gain(pen, low, high));
  }
  const zero = pen.y(0);
  ctx.strokeStyle = ink.soft;
  ctx.lineWidth = 1.5 * px;
  ctx.beginPath();
  ctx.moveTo(box.left, zero);
  ctx.lineTo(box.left + box.width, zero);
  ctx.stroke();
}

function strip(pen: Pen, band: SumView['ownBandHz']): void {
  if (!band) return;
  const { ctx, box, ink, px } = pen;
  const [from, to] = [inside(pen, band[0]), inside(pen, band[1])];
  ctx.globalAlpha = STRIP_INK;
  ctx.fillStyle = ink.ink;
  ctx.fillRect(from, box.top, to - from, box.height);
  ctx.globalAlpha = 1;
  ctx.strokeStyle = ink.soft;
  ctx.lineWidth = px;
  ctx.beginPath();
  for (const x of [from, to]) {
    ctx.moveTo(x, box.top);
    ctx.lineTo(x, box.top + box.height);
  }
  ctx.stroke();
}

/** Shaded wherever the better line lies above the other. */
function gain({ ctx, ink, x, y }: Pen, low: Line, high: Line): void {
  ctx.fillStyle = ink.accent;
  ctx.globalAlpha = GAIN_INK;
  ctx.beginPath();
  for (let i = 1; i < SUM_HZ.length; i++) {
    const [l0, l1, h0, h1] = [low[i - 1], low[i], high[i - 1], high[i]];
    if (l0 == null || l1 == null || h0 == null || h1 == null || (h0 <= l0 && h1 <= l1)) continue;
    const [x0, x1] = [x(SUM_HZ[i - 1] as number), x(SUM_HZ[i] as number)];
    // where they cross the shading ends in a point
    const [d0, d1] = [h0 - l0, h1 - l1];
    const cut = d0 < 0 || d1 < 0 ? d0 / (d0 - d1) : 0;
    const [xc, yc] = [x0 + cut * (x1 - x0), y(l0 + cut * (l1 - l0))];
    ctx.moveTo(d0 < 0 ? xc : x0, d0 < 0 ? yc : y(l0));
    ctx.lineTo(d0 < 0 ? xc : x0, d0 < 0 ? yc : y(h0));
    ctx.lineTo(d1 < 0 ? xc : x1, d1 < 0 ? yc : y(h1));
    ctx.lineTo(d1 < 0 ? xc : x1, d1 < 0 ? yc : y(l1));
    ctx.closePath();
  }
  ctx.fill();
  ctx.globalAlpha = 1;
}

/** The lines, and what is written among them. */
export function paintSumOver(pen: Pen, view: SumDrawing): void {
  const { box, ink, px } = pen;
  const comb = view.combShown ? view.comb : null;
  clipped(pen, () => {
    if (comb) line(pen, comb.db, ink.ink, 1, []);
    line(pen, view.nowDb, ink.ink, 3, []);
    if (view.otherDb) line(pen, view.otherDb, ink.accent, 2.5, [9, 6]);
  });
  label(pen.ctx, box, 'one mic alone', box.left + 6 * px, pen.y(0) + 9 * px, ink, SMALL_PX * px, { colour: ink.soft });
  silence(pen, view.nowDb, view.tooFew ? ['no line yet: too few hits'] : noLine(view));
  if (view.lossHz) loss(pen, view.lossHz, comb !== null);
  if (comb) {
    // those of the line that is drawn
    const toHz = SUM_HZ[comb.db.findLastIndex((level) => level !== null)] ?? 0;
    notches(
      pen,
      comb.notchesHz.filter((hz) => hz <= toHz),
    );
  }
  stripText(pen, view);
}

function line({ ctx, px, x, y }: Pen, values: Line, colour: string, width: number, dash: number[]): void {
  ctx.strokeStyle = colour;
  ctx.lineWidth = width * px;
  ctx.lineJoin = 'round';
  ctx.setLineDash(dash.map((length) => length * px));
  ctx.beginPath();
  let drawing = false;
  for (const [i, value] of values.entries()) {
    if (value === null) drawing = false;
    else if (drawing) ctx.lineTo(x(SUM_HZ[i] as number), y(value));
    else {
      ctx.moveTo(x(SUM_HZ[i] as number), y(value));
      drawing = true;
    }
  }
  ctx.stroke();
  ctx.setLineDash([]);
}

/**
 * Why there is no line, the longer text first. A band's level may be known all the same: what its frequencies do from hit to hit
 * evens out over it.
 */
function noLine({ other }: SumDrawing): string[] {
  const text = 'no line: single frequencies differ between hits';
  const short = 'no line: single frequencies differ';
  return other === 'tried' ? [`${text}; whole bands: the table`, text, short] : [text, short];
}

/** Why there is no line: said in the widest stretch without one, by the first of the texts that fits. */
function silence({ ctx, box, ink, px, x, y }: Pen, nowDb: Line, texts: readonly string[]): void {
  let [from, to] = [0, 0];
  for (let i = 0, start = 0; i <= nowDb.length; i++) {
    if (i < nowDb.length && nowDb[i] === null) continue;
    if (i - start > to - from) [from, to] = [start, i];
    start = i + 1;
  }
  if (to === from) return;
  const left = x(SUM_HZ[from] as number);
  const right = x(SUM_HZ[to - 1] as number);
  if (right - left < GAP_PX * px) return;
  const options = { colour: ink.soft, centre: true };
  ctx.font = `${SMALL_PX * px}px ${ink.font}`;
  const text = texts.find((one) => ctx.measureText(one).width <= right - left) ?? (texts.at(-1) as string);
  label(ctx, box, text, (left + right) / 2, y(-3), ink, SMALL_PX * px, options);
}

/** The place where the plan makes it thinner; the comb's figures stand beside it along the foot. */
function loss(pen: Pen, [lowHz, highHz]: readonly [number, number], withComb: boolean): void {
  const { ctx, box, ink, px } = pen;
  const [from, to] = [inside(pen, lowHz), inside(pen, highHz)];
  const y = box.top + box.height - 5 * px;
  ctx.strokeStyle = ink.ink;
  ctx.lineWidth = 2 * px;
  ctx.beginPath();
  ctx.moveTo(from, y - 5 * px);
  ctx.lineTo(from, y);
  ctx.lineTo(to, y);
  ctx.lineTo(to, y - 5 * px);
  ctx.stroke();
  if (withComb) label(ctx, box, 'thinner', (from + to) / 2, y - 12 * px, ink, SMALL_PX * px, { centre: true });
  else label(ctx, box, 'thinner', to + 5 * px, y - 5 * px, ink, SMALL_PX * px);
}

/** The comb's notches along the foot, with as many of their figures as there is room for. */
function notches({ ctx, box, ink, px, x }: Pen, notchesHz: readonly number[]): void {
  const foot = box.top + box.height;
  let free = box.left;
  let drawn = Number.NEGATIVE_INFINITY;
  for (const [i, hz] of notchesHz.entries()) {
    const at = x(hz);
    if (at - drawn < 9 * px) continue;
    drawn = at;
    ctx.fillStyle = ink.ink;
    ctx.beginPath();
    ctx.moveTo(at - 5 * px, foot);
    ctx.lineTo(at + 5 * px, foot);
    ctx.lineTo(at, foot - 8 * px);
    ctx.fill();
    ctx.font = `700 ${TYPE_PX * px}px ${ink.font}`;
    const text = hzLabel(hz, i);
    if (at - ctx.measureText(text).width / 2 < free) continue;
    const options = { bold: true, centre: true };
    free = label(ctx, box, text, at, foot - 17 * px, ink, TYPE_PX * px, options) + 6 * px;
  }
}

/** "+2 dB" over its band, between two ticks, and in the strip that the low octave stays as it is. */
function bandText(pen: Pen, ownBandHz: readonly [number, number], { lowHz, highHz, db }: BandGain): void {
  const { ctx, box, ink, px } = pen;
  const [from, to] = [inside(pen, lowHz), inside(pen, highHz)];
  const y = box.top + 24 * px;
  ctx.strokeStyle = ink.ink;
  ctx.lineWidth = 1.5 * px;
  ctx.beginPath();
  ctx.moveTo(from, y + 4 * px);
  ctx.lineTo(from, y);
  ctx.lineTo(to, y);
  ctx.lineTo(to, y + 4 * px);
  ctx.stroke();
  label(ctx, box, gainText(db), (from + to) / 2, box.top + 12 * px, ink, GAIN_PX * px, { bold: true, centre: true });
  const own = (inside(pen, ownBandHz[0]) + inside(pen, ownBandHz[1])) / 2;
  label(ctx, box, 'low octave ±0', own, box.top + 12 * px, ink, SMALL_PX * px, { centre: true });
}

/** In the strip, above the lines: what the plan gains there; where that is nothing, and another band gains, the large figure is that band's. */
function stripText(pen: Pen, { ownBandHz, gainDb, elsewhere }: SumDrawing): void {
  if (!ownBandHz) return;
  if (elsewhere !== null) {
    bandText(pen, ownBandHz, elsewhere);
    return;
  }
  const { ctx, box, ink, px } = pen;
  const middle = (inside(pen, ownBandHz[0]) + inside(pen, ownBandHz[1])) / 2;
  const whole: Box = { ...box };
  const small = box.height < LOW_PLOT_PX * px;
  const put = (text: string, y: number, size: number, bold: boolean): void =>
    void label(ctx, whole, text, middle, box.top + y * px, ink, size * px, { bold, centre: true });
  if (gainDb === null) put('low octave', 12, SMALL_PX, false);
  else {
    put(gainText(gainDb), 12, GAIN_PX, true);
    if (!small) put('low octave', 29, SMALL_PX, false);
  }
}
