/** The sheet: answer first, then the sum, the trace and the arrival beside it, the controls at the foot. */
import { type JSX, Show } from 'solid-js';
import { ArrivalFigure } from '../plots/ArrivalFigure';
import { createPushes } from '../plots/createPushes';
import { SumFigure } from '../plots/SumFigure';
import { TraceFigure } from '../plots/TraceFigure';
import { useApp } from '../shared/appScope';
import { Answer } from './Answer';
import { Controls } from './Controls';
import { Numbers } from './Numbers';

export function MeterPage(): JSX.Element {
  const { parts, settings } = useApp();
  const far = (): boolean =>
    ['two-overheads', 'other'].includes(settings.kind()) || (parts.kit.here()?.round.pair() ?? null) !== null;
  const pushes = createPushes();
  const aWay = () => pushes()?.aWay ?? 0;
  return (
    <main class="sheet" data-far={String(far())}>
      <Answer aWay={aWay()} />
      <Numbers aWay={aWay()} />
      <SumFigure />
      <TraceFigure />
      <ArrivalFigure pushes={pushes()} />
      <div class="foot">
        <Show when={parts.recording.here()} keyed>
          {(it) => <it.Progress />}
        </Show>
        <Controls />
      </div>
    </main>
  );
}
