/** The sum over frequency: measured, and as tried. */
import { createMemo, type JSX, untrack } from 'solid-js';
import { triedSumView } from '../../state/views/triedView';
import { bandText } from '../../text/frequency';
import { Canvas, Slot } from '../plots/Canvas';
import { createSumReadOut, notchesData } from '../plots/createSumReadOut';
import type { SumDrawing } from '../plots/paint/paintSum';
import { sumPlot } from '../plots/plots';
import { SumLegends } from '../plots/SumLegends';
import { notchesText } from '../plots/sumWords';
import { useApp } from '../shared/appScope';
import type { Try } from './createTry';

export function TrySum(props: { it: Try }): JSX.Element {
  const { meter, trying } = useApp();
  const view = createMemo<SumDrawing | null>(() => {
    const reading = props.it.reading();
    const sums = props.it.sums();
    if (reading === null || sums === null) return null;
    const next = triedSumView(reading, untrack(meter.context), trying.tried(), sums);
    return { ...next, combShown: next.comb?.fits ?? false };
  });
  const notches = (): string => {
    const now = view();
    if (!now?.combShown || now.comb === null) return '';
    return now.comb.notchesHz.length === 0 ? 'No notches as tried.' : `Notches as tried: ${notchesText(now.comb)}`;
  };
  const loss = (): string => {
    const range = view()?.lossHz ?? null;
    return range === null ? '' : `Thinner as tried at ${bandText(...range)}. `;
  };
  const readOut = createSumReadOut(
    'Sum of A and B over frequency, now and as tried, dB re one mic alone',
    () => `A+B, 20 Hz to 20 kHz, A and B at equal level. ${loss()}${notches()}`,
    view,
  );
  return (
    <figure
      class="figure try-sum"
      data-notches-hz={notchesData(view()?.combShown ? (view()?.comb?.notchesHz ?? []) : [])}
    >
      <figcaption>
        <b>The sum over frequency</b>
        <SumLegends other="tried" off={!view()?.otherDb} />
        <Slot readOut={readOut}>{`${loss()}${notches()}`}</Slot>
      </figcaption>
      <Canvas make={sumPlot} view={view} readOut={readOut} />
    </figure>
  );
}
