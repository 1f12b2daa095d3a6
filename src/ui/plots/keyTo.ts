/** How a plot is read out: along which values, and what is told of one. */
export interface ReadOut {
  /** what the plot is, for whoever can't see it */
  name: string;
  /** all of it in words */
  text: string;
  /** the place that is read; null: none */
  at: number | null;
  set(at: number | null): void;
  min: number;
  max: number;
  step: number;
  /** of a page key, or an arrow with Shift */
  stride: number;
  /** where the keys begin */
  start: number;
  say(at: number): string;
  /** a place is chosen, not only read: by a press, by dragging, by the keys */
  take?: (at: number) => void;
}

/** Where a key leads; null: it is none of these. */
export function keyTo(
  { key, shiftKey }: Pick<KeyboardEvent, 'key' | 'shiftKey'>,
  { at, min, max, step, stride, start }: Pick<ReadOut, 'at' | 'min' | 'max' | 'step' | 'stride' | 'start'>,
): number | null {
  const by = shiftKey ? stride : step;
  const steps: Record<string, number> = {
    ArrowLeft: -by,
    ArrowDown: -by,
    ArrowRight: by,
    ArrowUp: by,
    PageDown: -stride,
    PageUp: stride,
  };
  if (key === 'Home') return min;
  if (key === 'End') return max;
  const move = steps[key];
  if (move === undefined) return null;
  // the first press shows where one is
  return at === null ? start : Math.max(min, Math.min(max, at + move));
}
