/** Where things lie in the printed picture of a sum: in points, x logarithmic in Hz, y in dB. */
import { SPECTRUM_HIGH_HZ, SPECTRUM_LOW_HZ } from '../../reading/bands';
import { SUM_PICTURE_HZ } from '../../sheet/document/model';
import { hzLabel } from '../../text/frequency';

export const LOW_DB = -18;
export const HIGH_DB = 7;

/** the drawing, and the frame within it */
export const WIDTH = 156;
export const HEIGHT = 78;
export const FRAME = { left: 23, right: 153, top: 4, bottom: 64 };

export const DB_LINES = [-18, -12, -6, 0, 6];
/** of the lines at SUM_TICKS_HZ, those with a number: more would touch */
export const HZ_NUMBERS: readonly [hz: number, text: string][] = [20, 100, 1000, 10000].map((hz, i) => [
  hz,
  hzLabel(hz, i),
]);

export function xOf(hz: number): number {
  return (
    FRAME.left +
    ((FRAME.right - FRAME.left) * Math.log(hz / SPECTRUM_LOW_HZ)) / Math.log(SPECTRUM_HIGH_HZ / SPECTRUM_LOW_HZ)
  );
}

/** What lies beyond the frame is drawn at its edge. */
export function yOf(db: number): number {
  const inside = Math.min(HIGH_DB, Math.max(LOW_DB, db));
  return FRAME.bottom - ((FRAME.bottom - FRAME.top) * (inside - LOW_DB)) / (HIGH_DB - LOW_DB);
}

/** A path over SUM_PICTURE_HZ that breaks where there is no value. */
export function sumPath(db: readonly (number | null)[]): string {
  let path = '';
  let drawing = false;
  for (const [i, hz] of SUM_PICTURE_HZ.entries()) {
    const value = db[i] ?? null;
    if (value !== null) path += `${drawing ? 'L' : 'M'}${xOf(hz).toFixed(1)} ${yOf(value).toFixed(1)}`;
    drawing = value !== null;
  }
  return path;
}
