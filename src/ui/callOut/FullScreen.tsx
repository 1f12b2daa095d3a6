import { createSignal, type JSX, Show } from 'solid-js';
import { listen } from '../page/listen';

/** Nothing where the browser has no full screen, as on some phones. */
export function FullScreen(): JSX.Element {
  const [full, setFull] = createSignal(false);
  listen(document, 'fullscreenchange', () => setFull(document.fullscreenElement !== null));
  const [refused, setRefused] = createSignal(false);
  const turn = (): void => {
    setRefused(false);
    const done = full() ? document.exitFullscreen() : document.documentElement.requestFullscreen();
    // it stays as it is
    done.catch(() => setRefused(true));
  };
  return (
    <Show when={document.fullscreenEnabled}>
      <button type="button" class="press call-close" data-command="full-screen" onClick={turn}>
        {full() ? 'Leave full screen' : 'Full screen'}
      </button>
      <Show when={refused()}>
        <p class="call-foot-said" role="status" data-full-screen="refused">
          The browser refused full screen: try its own key, mostly F11.
        </p>
      </Show>
    </Show>
  );
}
