/** The sheet: answer first, then the sum, the trace and the arrival beside it, the controls at the foot. */
import { For, type JSX, Show } from 'solid-js';
import { Answer } from './Answer';
import { useApp } from './app';
import { Controls } from './Controls';
import { ArrivalFigure, SumFigure, TraceFigure } from './Figures';
import { Numbers } from './Numbers';
import { Progress } from './Recording';

export function SceneChoice(): JSX.Element {
  const { meter } = useApp();
  const id = (): string => {
    const source = meter.source();
    return source?.type === 'demo' ? source.scene.id : '';
  };
  return (
    <Show when={meter.source()?.type === 'demo'}>
      <label class="field">
        <span>Scene</span>
        <select
          id="scene"
          value={id()}
          onChange={(e) => {
            const scene = meter.scenes().find((s) => s.id === e.currentTarget.value);
            e.currentTarget.blur();
            if (scene) void meter.open({ type: 'demo', scene });
          }}
        >
          <For each={meter.scenes()}>{(s) => <option value={s.id}>{s.title}</option>}</For>
        </select>
      </label>
    </Show>
  );
}

export function MeterPage(): JSX.Element {
  return (
    <main class="sheet">
      <Answer />
      <Numbers />
      <SumFigure />
      <TraceFigure />
      <ArrivalFigure />
      <div class="foot">
        <SceneChoice />
        <Progress />
        <Controls />
      </div>
    </main>
  );
}
