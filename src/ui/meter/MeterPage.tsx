/** The sheet: answer first, then the sum, the trace and the arrival beside it, the controls at the foot. */
import type { JSX } from 'solid-js';
import { ArrivalFigure, SumFigure, TraceFigure } from '../plots/Figures';
import { Progress } from '../sources/Recording';
import { Answer } from './Answer';
import { Controls } from './Controls';
import { DrumChoice } from './DrumChoice';
import { Numbers } from './Numbers';

export function MeterPage(): JSX.Element {
  return (
    <main class="sheet">
      <Answer />
      <Numbers />
      <DrumChoice group="drum" />
      <SumFigure />
      <TraceFigure />
      <ArrivalFigure />
      <div class="foot">
        <Progress />
        <Controls />
      </div>
    </main>
  );
}
