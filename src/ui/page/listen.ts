import { onCleanup } from 'solid-js';

/** Listens to an event until the caller's owner goes. */
export function listen<E extends Event>(target: EventTarget, type: string, hear: (event: E) => void): void {
  const listener = hear as (event: Event) => void;
  target.addEventListener(type, listener);
  onCleanup(() => target.removeEventListener(type, listener));
}
