/** Whose the keys are after a press by pointer: the focus stays where it is, so that nobody loses his place, and the keys are the page's. */

/** Until the focus goes on: letters and Enter on this button are the page's. */
export function leaveKeysToPage(button: HTMLElement): void {
  button.dataset.keys = 'page';
  button.addEventListener('blur', () => delete button.dataset.keys, { once: true });
}

export const keysAreThePages = (target: { dataset?: DOMStringMap } | null): boolean => target?.dataset?.keys === 'page';

/** Out of a field that takes letters itself: the focus goes to its label, right before it. */
export function stepOut(field: HTMLElement): void {
  const label = field.closest('label') ?? field.parentElement;
  if (label === null) return;
  label.tabIndex = -1;
  label.focus({ preventScroll: true });
}
