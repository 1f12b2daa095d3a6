/** The sum over frequency: now, after the plan, and what that gains. */
import { createMemo, type JSX, untrack } from 'solid-js';
import type { Reading } from '../../reading/reading';
import { sumKey, sumView } from '../../state/views/sumView';
import { dataNumber } from '../../text/number';
import { useApp } from '../shared/appScope';
import { Key } from '../shared/Key';
import { SumPress } from '../shared/SumPress';
import { Canvas, Slot } from './Canvas';
import { createSumReadOut, notchesData } from './createSumReadOut';
import type { SumDrawing } from './paint/paintSum';
import { sumPlot } from './plots';
import { LegendLine, SumLegends } from './SumLegends';
import { combText, lossText, sumText } from './sumWords';

interface SumShown extends SumDrawing {
  reading: Reading;
}

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
  const readOut = createSumReadOut(
    'Sum of A and B over frequency, dB re one mic alone',
    () =>
      `${sumText(view(), view()?.reading.sum.spectrum.coherence ?? [])} ${combText(view()?.comb ?? null, combShown())} ${note()}`,
    view,
  );
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
      data-notches-hz={notchesData(view()?.comb?.notchesHz ?? [])}
    >
      <figcaption>
        <SumPress of="over-frequency">
          <b>The sum over frequency</b>
        </SumPress>
        <SumLegends
          other={view()?.other === 'without' ? 'not inverted' : 'after the plan'}
          otherTitle={view()?.otherWhat}
          off={!view()?.otherDb}
        />
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
