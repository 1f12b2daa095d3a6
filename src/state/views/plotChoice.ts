/** What a person wants to see in the plots. Not remembered: the next pair begins with what is of use unasked. */
import { type Accessor, createSignal } from 'solid-js';

export interface PlotChoice {
  /** the comb of delay and polarity alone; null: where it fits */
  comb: Accessor<boolean | null>;
  setComb(on: boolean | null): void;
  /** how well the whole stroke fits at each delay, in place of the first pushes */
  curve: Accessor<boolean>;
  setCurve(on: boolean): void;
}

export function createPlotChoice(): PlotChoice {
  const [comb, setComb] = createSignal<boolean | null>(null);
  const [curve, setCurve] = createSignal(false);
  return { comb, setComb, curve, setCurve };
}
