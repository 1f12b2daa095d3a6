/** Whether the page is kept for offline, and that a newer version of it is here. That never starts by itself, and nothing is said of it while a meter runs. */
import { type JSX, Show } from 'solid-js';
import { useApp } from '../shared/appScope';
import { createNewVersion } from './createNewVersion';

export function NewVersion(): JSX.Element {
  const { meter } = useApp();
  const quiet = (): boolean => meter.run() !== 'running' && !meter.opening();
  const { waits, kept } = createNewVersion(quiet);
  return (
    <Show
      when={waits() && quiet()}
      fallback={
        <Show when={kept() && meter.page() === 'start'}>
          <p class="kept quiet">Saved in this browser: it starts without a network too.</p>
        </Show>
      }
    >
      <div class="new-version" role="status">
        <p>A newer version is ready. It starts when you reload, if no other tab has Crosshead open.</p>
        <button type="button" class="press" data-command="reload" onClick={() => location.reload()}>
          Reload
        </button>
      </div>
    </Show>
  );
}
