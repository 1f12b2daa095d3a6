import { createSignal, type JSX, Show } from 'solid-js';
import { listen } from '../page/listen';

/** Nothing where the browser has no full screen, as on some phones. */
export function FullScreen(): JSX.Element {
  const [full, setFull] = createSignal(false);
  listen(document, 'fullscreenchange', () => setFull(document.fullscreenElement !== null));
  const turn = (): void => {
    const done = full() ? document.exitFullscreen() : document.documentElement.requestFullscreen();
    // refused: it stays as it is
    void done.catch(() => undefined);
  };
  return (
    <Show when={document.fullscreenEnabled}>
      <button type="button" class="press call-close" data-command="full-screen" onClick={turn}>
        {full() ? 'Leave full screen' : 'Full screen'}
      </button>
    </Show>
  );
}
