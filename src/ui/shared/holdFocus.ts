import { onCleanup, onMount } from 'solid-js';

/** A panel over the page takes the focus, and gives it back to where it was when it goes. */
export function holdFocus(panel: () => HTMLElement | undefined): void {
  onMount(() => {
    const before = document.activeElement;
    panel()?.focus();
    onCleanup(() =>
      // the page below can't be focused until it is no longer inert
      queueMicrotask(() => {
        if (before instanceof HTMLElement && before.isConnected) before.focus();
      }),
    );
  });
}
