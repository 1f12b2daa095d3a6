/** The outline of a channel's picture as an SVG path: along the largest values and back along the least. */

/**
 * @param columns per column the least and the largest value, −1…+1; NaN: a gap
 * @param width of the picture · `middle` and `half`: where 0 lies, and how far ±1 are from it
 */
export function wavePath(columns: Float32Array, width: number, middle: number, half: number): string {
  const n = columns.length / 2;
  const parts: string[] = [];
  let over: string[] = [];
  let under: string[] = [];
  const end = (): void => {
    if (over.length > 0) parts.push(`M${over.join('L')}L${under.reverse().join('L')}Z`);
    over = [];
    under = [];
  };
  for (let c = 0; c < n; c++) {
    const low = columns[2 * c] as number;
    const high = columns[2 * c + 1] as number;
    if (Number.isNaN(low)) {
      end();
      continue;
    }
    const x = (((c + 0.5) * width) / n).toFixed(1);
    over.push(`${x} ${(middle - half * high).toFixed(1)}`);
    under.push(`${x} ${(middle - half * low).toFixed(1)}`);
  }
  end();
  return parts.join('');
}

/** Where the lines of a time axis stand: every whole step inside the window, ms. */
export function ticksMs(fromMs: number, lengthMs: number): number[] {
  const step = [0.5, 1, 2, 5, 10].find((wide) => lengthMs / wide <= 10) ?? 10;
  const first = Math.ceil(fromMs / step);
  const count = Math.floor((fromMs + lengthMs) / step + 1e-6) - first + 1;
  return Array.from({ length: Math.max(0, count) }, (_, i) => (first + i) * step);
}
