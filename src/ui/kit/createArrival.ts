/** A kit that is much larger than usual is on the screen at once, and all there a moment later: a part of it after the other. */
import { type Accessor, createSignal, onCleanup } from 'solid-js';

/** pairs that are there at once: a usual kit has fewer */
export const AT_ONCE = 40;
/** … and with each task after that */
const STEP = 40;

export interface Arrival {
  /** so many pairs may be shown by now */
  rows: Accessor<number>;
  /** what all readings say together may be worked out, which takes longest */
  whole: Accessor<boolean>;
}

/** @param pairs of the kit that is being opened */
export function createArrival(pairs: number): Arrival {
  const [rows, setRows] = createSignal(AT_ONCE);
  const [whole, setWhole] = createSignal(pairs <= AT_ONCE);
  let timer: ReturnType<typeof setTimeout> | undefined;
  const soon = (): void => {
    timer = setTimeout(() => {
      if (rows() >= pairs) return void setWhole(true);
      setRows((count) => count + STEP);
      soon();
    });
  };
  if (!whole()) soon();
  onCleanup(() => clearTimeout(timer));
  return { rows: () => (whole() ? Number.POSITIVE_INFINITY : rows()), whole };
}
