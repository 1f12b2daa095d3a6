/** Several inputs, and the browser doesn’t tell which of them the system’s default is: a person names it. */
import { For, type JSX } from 'solid-js';
import { useApp } from '../shared/appScope';

export function WhichInput(): JSX.Element {
  const { meter, settings } = useApp();
  return (
    <main class="identify" data-step="which">
      <h1>Which input are the two mics on?</h1>
      <p class="lead">
        Several inputs are connected, and the browser doesn’t say which one the system’s default is. The system may also
        move its default to another input without a word. Chosen by name, it stays.
      </p>
      <div class="presses">
        <For each={meter.inputs()}>
          {({ deviceId, label }) => (
            <button
              type="button"
              class="press big"
              data-command="name-input"
              onClick={() => {
                settings.setDeviceId(deviceId);
                void meter.open({ type: 'interface', deviceId });
              }}
            >
              {label}
            </button>
          )}
        </For>
        <button type="button" class="press" data-command="leave" onClick={() => void meter.leave()}>
          Back to the first page
        </button>
      </div>
    </main>
  );
}
