/** The sum over frequency told point by point, by pointer and keys. */
import { type Accessor, createSignal } from 'solid-js';
import { SUM_HZ } from '../../state/views/sumView';
import type { ReadOut } from './keyTo';
import type { SumDrawing } from './paint/paintSum';
import { sumAt } from './readOut';

/** points of the grid in a third of an octave */
const THIRD_OCTAVE = 8;
/** where the keys begin: 100 Hz */
const START = SUM_HZ.findIndex((hz) => hz >= 99);

/** @param name, text what the whole of it is called, and says */
export function createSumReadOut(name: string, text: Accessor<string>, view: Accessor<SumDrawing | null>): ReadOut {
  const [at, setAt] = createSignal<number | null>(null);
  return {
    name,
    get text() {
      return text();
    },
    get at() {
      return at();
    },
    set: (point) => setAt(point === null ? null : Math.round(point)),
    min: 0,
    max: SUM_HZ.length - 1,
    step: 1,
    stride: THIRD_OCTAVE,
    start: START,
    say: (point) => sumAt(view(), point),
  };
}

/** As many as a data attribute needs. */
export const notchesData = (notchesHz: readonly number[]): string =>
  notchesHz
    .slice(0, 8)
    .map((hz) => hz.toFixed(1))
    .join(' ');
