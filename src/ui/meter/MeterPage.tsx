/** The sheet: answer first, then the sum, the trace and the arrival beside it, the controls at the foot. */
import { type JSX, Show } from 'solid-js';
import { ArrivalFigure, SumFigure, TraceFigure } from '../plots/Figures';
import { useApp } from '../shared/appScope';
import { Answer } from './Answer';
import { Controls } from './Controls';
import { DrumChoice } from './DrumChoice';
import { Numbers } from './Numbers';

export function MeterPage(): JSX.Element {
  const { parts, shown } = useApp();
  return (
    <main class="sheet">
      <Answer />
      <Numbers />
      <Show when={!shown.patching()}>
        <DrumChoice group="drum" />
      </Show>
      <SumFigure />
      <TraceFigure />
      <ArrivalFigure />
      <div class="foot">
        <Show when={parts.recording.here()} keyed>
          {(it) => <it.Progress />}
        </Show>
        <Controls />
      </div>
    </main>
  );
}
