import { listen } from './listen';

/** Whenever the page is looked at again after another tab or window was. */
export function onComeBack(
  act: () => void,
  page: EventTarget & { readonly visibilityState: DocumentVisibilityState } = document,
): void {
  listen(page, 'visibilitychange', () => {
    if (page.visibilityState === 'visible') act();
  });
}
