/** The head of every page: the name, what is being measured, theme, help. */

import { For, type JSX, Show } from 'solid-js';
import { LIGHTS } from '../../state/settings/settings';
import { OffsetInForce } from '../meter/OffsetInForce';
import { useApp } from '../shared/appScope';
import { RegisterMark } from '../shared/Marks';
import { stepOut } from '../shared/ownKeys';
import { Press } from '../shared/Press';

const LIGHTS_TEXT = { auto: 'Theme: auto', up: 'Theme: light', down: 'Theme: dark' } as const;

function SceneChoice(): JSX.Element {
  const { meter } = useApp();
  const id = (): string => {
    const source = meter.source();
    return source?.type === 'demo' ? source.scene.id : '';
  };
  return (
    <label class="field">
      <span>Example</span>
      <select
        id="scene"
        value={id()}
        onChange={(e) => {
          const scene = meter.scenes().find((s) => s.id === e.currentTarget.value);
          stepOut(e.currentTarget);
          if (scene) void meter.open({ type: 'demo', scene });
        }}
      >
        <For each={meter.scenes()}>{(s) => <option value={s.id}>{s.title}</option>}</For>
      </select>
    </label>
  );
}

export function Head(): JSX.Element {
  const { meter, settings, setHelp, kitAndBack } = useApp();
  const next = () => LIGHTS[(LIGHTS.indexOf(settings.lights()) + 1) % LIGHTS.length] ?? 'auto';
  return (
    <header class="head">
      <p class="name">
        <RegisterMark /> Crosshead
      </p>
      <div class="source-line">
        <Show when={meter.page() === 'meter'}>
          <Show when={meter.source()?.type === 'demo'} fallback={<p>{meter.sourceLabel()}</p>}>
            <SceneChoice />
          </Show>
          <Show when={meter.source()?.type === 'take'}>
            <button
              type="button"
              class="press"
              data-command="back-to-take"
              onClick={() => {
                // on the page that comes nothing can turn it down
                meter.setMonitorGain(0);
                meter.go('take');
              }}
            >
              Back to the take
            </button>
          </Show>
          <OffsetInForce />
        </Show>
      </div>
      <Show when={meter.page() !== 'identify' && meter.page() !== 'offset'}>
        <Press
          of="kit"
          pressed={meter.page() === 'kit'}
          onPress={kitAndBack}
          title="The kit sheet: mics, pairs, the round, the hand-over"
        >
          Kit sheet
        </Press>
      </Show>
      <Show when={meter.page() === 'meter'}>
        <Press of="sources" onPress={() => void meter.leave()}>
          Sources
        </Press>
      </Show>
      <Press of="lights" onPress={() => settings.setLights(next())} title="For a dim control room">
        {LIGHTS_TEXT[settings.lights()]}
      </Press>
      <Press of="help" onPress={() => setHelp(true)}>
        Help, cautions
      </Press>
    </header>
  );
}
