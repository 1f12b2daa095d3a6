/** What every painter of a plot works with. */
import type { Box, Ink } from './ink';

export const TYPE_PX = 12;
/** of what stands in the plot without being the matter */
export const SMALL_PX = 11;

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

/** Where a value lies across, kept within the box. */
export function inside(pen: Pen, value: number): number {
  return Math.min(pen.box.left + pen.box.width, Math.max(pen.box.left, pen.x(value)));
}

/** The same with nothing drawn beyond the box. */
export function clipped({ ctx, box }: Pen, paint: () => void): void {
  ctx.save();
  ctx.beginPath();
  ctx.rect(box.left, box.top, box.width, box.height);
  ctx.clip();
  paint();
  ctx.restore();
}
