/**
 * Closes a dialog before it is taken off the page: one that is removed open leaves the focus nowhere.
 * @param then may take the dialog off the page; within the same press
 * @param next has the focus then
 */
export function closeTo(
  dialog: Pick<HTMLDialogElement, 'close'>,
  then: () => void,
  next: Pick<HTMLElement, 'focus'> | null | undefined,
): void {
  dialog.close();
  then();
  next?.focus();
}
