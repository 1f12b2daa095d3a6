/** The sum over frequency: now, after the plan, and what that gains. */
import { createMemo, createSignal, type JSX, untrack } from 'solid-js';
import type { Reading } from '../../reading/reading';
import { SUM_HZ, sumKey, sumView } from '../../state/views/sumView';
import { dataNumber } from '../../text/number';
import { useApp } from '../shared/appScope';
import { Key } from '../shared/Key';
import { SumPress } from '../shared/SumPress';
import { Canvas, Slot } from './Canvas';
import type { ReadOut } from './keyTo';
import type { SumDrawing } from './paint/paintSum';
import { sumPlot } from './plots';
import { sumAt } from './readOut';
import { combText, lossText, sumText } from './sumWords';

/** points of the grid in a third of an octave */
const THIRD_OCTAVE = 8;
/** where the keys begin: 100 Hz */
const START = SUM_HZ.findIndex((hz) => hz >= 99);

interface SumShown extends SumDrawing {
  reading: Reading;
}

/** A drawing, not a border: those are dimmed by a browser that darkens pages. */
const LegendLine = (props: { of: 'solid' | 'thin' | 'dash' }): JSX.Element => (
  <svg class={`line line-${props.of}`} viewBox="0 0 26 4" aria-hidden="true">
    <path d="M0 2H26" />
  </svg>
);

export function SumFigure(): JSX.Element {
  const { meter, shown, plots } = useApp();
  const key = createMemo(() => {
    const reading = shown.reading();
    return reading === null ? '' : `${sumKey(reading, shown.advice())}|${JSON.stringify(meter.context())}`;
  });
  // the key says when the picture changes: readings come forty times a second, spectra once a hit
  const view = createMemo<SumShown | null>((last) => {
    key();
    const wish = plots.comb();
    return untrack(() => {
      const reading = shown.reading();
      if (reading === null) return null;
      const next = sumView(reading, shown.advice(), meter.context(), last?.comb?.fits);
      return { ...next, reading, combShown: wish ?? next.comb?.fits ?? false };
    });
  }, null);
  const combShown = (): boolean => view()?.combShown ?? plots.comb() ?? false;
  const [at, setAt] = createSignal<number | null>(null);
  const readOut: ReadOut = {
    name: 'Sum of A and B over frequency, dB re one mic alone',
    get text() {
      return `${sumText(view(), view()?.reading.sum.spectrum.coherence ?? [])} ${combText(view()?.comb ?? null, combShown())} ${note()}`;
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
  const note = (): string => {
    const now = view();
    return now === null ? '' : lossText(now);
  };
  return (
    <figure
      class="figure sum"
      data-changed-seconds={dataNumber(view()?.reading.streamSeconds, 6)}
      data-comb={String(combShown())}
      data-comb-fit={dataNumber(view()?.comb?.fit?.share, 3)}
      data-gain-db={dataNumber(view()?.gainDb, 2)}
      data-notches-hz={(view()?.comb?.notchesHz ?? [])
        .slice(0, 8)
        .map((hz) => hz.toFixed(1))
        .join(' ')}
    >
      <figcaption>
        <SumPress of="over-frequency">
          <b>The sum over frequency</b>
        </SumPress>
        <span class="legends">
          <span class="legend">
            <LegendLine of="solid" /> now
          </span>
          <span class="legend" classList={{ off: !view()?.otherDb }} title={view()?.otherWhat}>
            <LegendLine of="dash" /> {view()?.other === 'without' ? 'not inverted' : 'after the plan'}
          </span>
          <span class="legend" classList={{ off: !view()?.otherDb }}>
            <i class="swatch" /> gain
          </span>
        </span>
        <button
          type="button"
          class="band"
          classList={{ chosen: combShown() }}
          data-command="comb"
          aria-pressed={combShown()}
          title="The comb that delay and polarity alone would make, with its notches"
          onClick={() => plots.setComb(!combShown())}
        >
          <LegendLine of="thin" /> Comb <Key of="comb" />
        </button>
      </figcaption>
      <Canvas make={sumPlot} view={view} readOut={readOut} />
      <div class="under">
        <Slot readOut={readOut}>{combText(view()?.comb ?? null, combShown())}</Slot>
        <p class="legend slot note">{note()}</p>
      </div>
    </figure>
  );
}
