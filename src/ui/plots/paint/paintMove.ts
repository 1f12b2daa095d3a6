/** A band's level against how far B is moved: two polarities, and the places worth trying with their names. */
import { SUM_LOW_DB } from '../../../state/views/combView';
import type { MoveMark, MoveView } from '../../../state/views/triedView';
import { label, upright } from './ink';
import { clipped, type Pen, SMALL_PX, TYPE_PX } from './pen';

/** half the size of a mark, CSS px */
const MARK_PX = 6;
/** a name stands so far from its mark, CSS px */
const NAME_PX = 15;

/** The level of one microphone alone, the present and what is tried as uprights. */
export function paintMoveUnder(pen: Pen, view: MoveView): void {
  const { ctx, box, ink, px } = pen;
  ctx.strokeStyle = ink.soft;
  ctx.lineWidth = 1.5 * px;
  ctx.beginPath();
  ctx.moveTo(box.left, pen.y(0));
  ctx.lineTo(box.left + box.width, pen.y(0));
  ctx.stroke();
  upright(ctx, box, pen.x(0), ink.soft, px);
  clipped(pen, () => upright(ctx, box, pen.x(view.triedCm), ink.accent, 2 * px));
}

export function paintMoveOver(pen: Pen, view: MoveView): void {
  clipped(pen, () => {
    line(pen, view.cm, view.otherDb, pen.ink.ink, 1.25);
    line(pen, view.cm, view.sameDb, pen.ink.ink, 3);
  });
  const { left, width } = pen.box;
  const places = view.marks
    .map((mark) => ({ ...mark, x: pen.x(mark.spot.moveCm), y: pen.y(mark.db ?? SUM_LOW_DB) }))
    .map((mark) => ({ ...mark, other: mark.spot.invertB !== view.invertB }))
    .filter(({ x }) => x >= left && x <= left + width);
  for (const { what, x, y, other } of places) shape(pen, what, x, y, other);
  // a name keeps off the shapes and off the other names
  const taken: Place[] = places.map(({ x, y }) => ({ x, y, half: MARK_PX * pen.px }));
  for (const { what, x, y, other } of places) name(pen, what, other, x, y, taken);
}

interface Place {
  x: number;
  y: number;
  /** half its width, canvas pixels */
  half: number;
}

function line(
  { ctx, px, x, y }: Pen,
  cm: readonly number[],
  values: readonly (number | null)[],
  ink: string,
  width: number,
): void {
  ctx.strokeStyle = ink;
  ctx.lineWidth = width * px;
  ctx.lineJoin = 'round';
  ctx.beginPath();
  let drawing = false;
  for (const [i, value] of values.entries()) {
    if (value === null) {
      drawing = false;
      continue;
    }
    if (drawing) ctx.lineTo(x(cm[i] as number), y(value));
    else ctx.moveTo(x(cm[i] as number), y(value));
    drawing = true;
  }
  ctx.stroke();
}

/** Now a ring, aligned a triangle, fullest a square, tried a disc; with the other polarity they are hollow. */
function shape({ ctx, ink, px }: Pen, what: MoveMark['what'], x: number, y: number, hollow: boolean): void {
  const r = MARK_PX * px;
  ctx.beginPath();
  if (what === 'aligned') {
    ctx.moveTo(x, y - 1.2 * r);
    ctx.lineTo(x + 1.1 * r, y + 0.8 * r);
    ctx.lineTo(x - 1.1 * r, y + 0.8 * r);
    ctx.closePath();
  } else if (what === 'fullest') ctx.rect(x - 0.9 * r, y - 0.9 * r, 1.8 * r, 1.8 * r);
  else ctx.arc(x, y, what === 'tried' ? 1.15 * r : r, 0, 2 * Math.PI);
  ctx.fillStyle = what === 'now' || hollow ? ink.paper : what === 'tried' ? ink.accent : ink.ink;
  ctx.fill();
  ctx.strokeStyle = what === 'tried' ? ink.accent : ink.ink;
  ctx.lineWidth = 2 * px;
  ctx.stroke();
}

function name(
  { ctx, box, ink, px }: Pen,
  what: MoveMark['what'],
  other: boolean,
  x: number,
  y: number,
  taken: Place[],
): void {
  const bold = what === 'tried' || what === 'now';
  const size = (bold ? TYPE_PX : SMALL_PX) * px;
  ctx.font = `${bold ? '700 ' : ''}${size}px ${ink.font}`;
  const text = other ? `${what}, other polarity` : what;
  const half = ctx.measureText(text).width / 2;
  const kept = Math.max(box.left + half, Math.min(box.left + box.width - half, x));
  const lineHeight = 1.15 * size;
  const free = (at: number): boolean =>
    at > box.top + size / 2 &&
    at < box.top + box.height - size / 2 &&
    taken.every((one) => Math.abs(one.y - at) >= lineHeight || Math.abs(one.x - kept) >= one.half + half + 4 * px);
  // above, then below, then farther off; where there is no room the shape alone stands
  const steps = [-1, 1, -2, 2, -3, 3].map((k) => y + Math.sign(k) * (NAME_PX * px + (Math.abs(k) - 1) * lineHeight));
  const at = steps.find(free);
  if (at === undefined) return;
  const colour = what === 'tried' ? ink.accent : ink.ink;
  label(ctx, box, text, x, at, ink, size, { colour, bold, centre: true });
  taken.push({ x: kept, y: at, half });
}
