/** Somebody has pressed Cancel. */
export class TakeCancelled extends Error {}

/** @throws TakeCancelled */
export function goOn(isCancelled: (() => boolean) | undefined): void {
  if (isCancelled?.()) throw new TakeCancelled('cancelled');
}
