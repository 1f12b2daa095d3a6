/** The sum over frequency: measured, and as tried. */
import { createMemo, createSignal, type JSX, untrack } from 'solid-js';
import { SUM_HZ } from '../../state/views/sumView';
import { triedSumView } from '../../state/views/triedView';
import { bandText } from '../../text/frequency';
import { Canvas, Slot } from '../plots/Canvas';
import type { ReadOut } from '../plots/keyTo';
import type { SumDrawing } from '../plots/paint/paintSum';
import { sumPlot } from '../plots/plots';
import { sumAt } from '../plots/readOut';
import { notchesText } from '../plots/sumWords';
import { useApp } from '../shared/appScope';
import type { Try } from './createTry';
import { TryLine } from './TryLine';

/** points of the grid in a third of an octave */
const THIRD_OCTAVE = 8;
/** where the keys begin: 100 Hz */
const START = SUM_HZ.findIndex((hz) => hz >= 99);

export function TrySum(props: { it: Try }): JSX.Element {
  const { meter, trying } = useApp();
  const view = createMemo<SumDrawing | null>(() => {
    const reading = props.it.reading();
    const sums = props.it.sums();
    if (reading === null || sums === null) return null;
    const next = triedSumView(reading, untrack(meter.context), trying.tried(), sums);
    return { ...next, combShown: next.comb?.fits ?? false };
  });
  const [at, setAt] = createSignal<number | null>(null);
  const notches = (): string => {
    const now = view();
    if (!now?.combShown || now.comb === null) return '';
    return now.comb.notchesHz.length === 0 ? 'No notches as tried.' : `Notches as tried: ${notchesText(now.comb)}`;
  };
  const loss = (): string => {
    const range = view()?.lossHz ?? null;
    return range === null ? '' : `Thinner as tried at ${bandText(...range)}. `;
  };
  const readOut: ReadOut = {
    name: 'Sum of A and B over frequency, now and as tried, dB re one mic alone',
    get text() {
      return `A+B, 20 Hz to 20 kHz, A and B at equal level. ${loss()}${notches()}`;
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
  return (
    <figure
      class="figure try-sum"
      data-notches-hz={(view()?.combShown ? (view()?.comb?.notchesHz ?? []) : [])
        .slice(0, 8)
        .map((hz) => hz.toFixed(1))
        .join(' ')}
    >
      <figcaption>
        <b>The sum over frequency</b>
        <span class="legends">
          <span class="legend">
            <TryLine of="solid" /> now
          </span>
          <span class="legend" classList={{ off: !view()?.otherDb }}>
            <TryLine of="dash" /> tried
          </span>
          <span class="legend" classList={{ off: !view()?.otherDb }}>
            <i class="swatch" /> gain
          </span>
        </span>
        <Slot readOut={readOut}>{`${loss()}${notches()}`}</Slot>
      </figcaption>
      <Canvas make={sumPlot} view={view} readOut={readOut} />
    </figure>
  );
}
