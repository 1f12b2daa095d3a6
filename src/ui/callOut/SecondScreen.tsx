/** Opens the big display in a window of its own, and says what came of it. */
import { createSignal, type JSX, onCleanup, Show } from 'solid-js';
import { useApp } from '../shared/appScope';

/** a window that hasn't asked by then wasn't opened, ms */
const OPEN_MS = 5000;

export function SecondScreen(): JSX.Element {
  const { secondScreen } = useApp();
  const [late, setLate] = createSignal(false);
  let timer: ReturnType<typeof setTimeout> | undefined;
  onCleanup(() => clearTimeout(timer));
  const open = (address: string): void => {
    // without an opener it needn't share this page's thread
    window.open(address, '_blank', 'popup,noopener,width=1100,height=700');
    setLate(false);
    clearTimeout(timer);
    timer = setTimeout(() => setLate(true), OPEN_MS);
  };
  const said = (): string => {
    if (secondScreen.asked()) return 'The window is open: drag it to the other screen. It follows this page only.';
    return late() ? 'No window opened: allow pop-ups for this page, then press again.' : '';
  };
  return (
    <Show when={secondScreen.address}>
      {(address) => (
        <>
          <button type="button" class="press" data-command="second-screen" onClick={() => open(address())}>
            On a second screen
          </button>
          <p class="call-foot-said" role="status" data-second-screen={secondScreen.asked() ? 'open' : ''}>
            {said()}
          </p>
        </>
      )}
    </Show>
  );
}
