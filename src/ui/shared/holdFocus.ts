import { onCleanup, onMount } from 'solid-js';

/** A panel over the page takes the focus, and gives it back to where it was when it goes. */
export function holdFocus(panel: () => HTMLElement | undefined): void {
  onMount(() => {
    giveFocusBack();
    panel()?.focus();
  });
}

/** Whatever has the focus now has it again when the caller’s owner goes. */
export function giveFocusBack(): void {
  const before = document.activeElement;
  onCleanup(() =>
    // the page below can't be focused until it is no longer inert
    queueMicrotask(() => {
      if (before instanceof HTMLElement && before.isConnected) before.focus();
    }),
  );
}
