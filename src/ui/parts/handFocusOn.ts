/**
 * What is about to go has the focus: the page that comes in its place gets it, and nobody begins again at the page’s top.
 * Where something lies over the page, that has taken it.
 */
export function handFocusOn(from: HTMLElement | undefined): void {
  if (!from?.contains(document.activeElement)) return;
  queueMicrotask(() => {
    const main = document.querySelector('main');
    if (!main || document.activeElement !== document.body) return;
    main.tabIndex = -1;
    main.focus({ preventScroll: true });
  });
}
