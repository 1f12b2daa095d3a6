/**
 * What had the focus is gone: what it lay in has it then, so that nobody begins again at the page's top. Never another press: Enter would press
 * what nobody chose.
 */
import { onCleanup } from 'solid-js';

const isLost = (element: Element): boolean =>
  !element.isConnected || element.matches(':disabled') || element.closest('[inert]') !== null;

function focusable(place: HTMLElement): HTMLElement {
  if (place.tabIndex < 0) place.tabIndex = -1;
  return place;
}

/** Holds for as long as the caller's owner is there. */
export function createFocusKeeper(root: Document = document): void {
  let last: HTMLElement | null = null;
  /** what `last` lay in, the innermost first */
  let around: Element[] = [];

  const remember = (event: FocusEvent): void => {
    last = event.target as HTMLElement;
    around = [];
    for (let at = last.parentElement; at !== null; at = at.parentElement) around.push(at);
  };
  /** The one that came in its place, else what it lay in, else the page. */
  const heir = (gone: HTMLElement): HTMLElement | null => {
    const usable = (one: HTMLElement | null): boolean =>
      one !== null && !isLost(one) && one.checkVisibility({ visibilityProperty: true });
    const { command } = gone.dataset;
    const same = command ? root.querySelector<HTMLElement>(`[data-command="${command}"]`) : null;
    if (usable(same)) return same;
    const page = root.querySelector('.page');
    for (const place of around) {
      if (!place.isConnected) continue;
      if (place === page || place === root.body || place.tagName === 'MAIN') break;
      return focusable(place as HTMLElement);
    }
    const over = root.querySelector<HTMLElement>('[role="dialog"]');
    const main = over ?? root.querySelector<HTMLElement>('main');
    return main && focusable(main);
  };
  const look = (): void => {
    if (last === null || !isLost(last)) return;
    const at = root.activeElement;
    if (at !== null && at !== root.body && at !== last) return;
    const gone = last;
    last = null;
    heir(gone)?.focus({ preventScroll: true });
  };
  const watch = new MutationObserver(look);
  watch.observe(root.body, { childList: true, subtree: true, attributeFilter: ['disabled', 'inert'] });
  root.addEventListener('focusin', remember);
  onCleanup(() => {
    watch.disconnect();
    root.removeEventListener('focusin', remember);
  });
}
