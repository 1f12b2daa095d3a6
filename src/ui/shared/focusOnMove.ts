/** After a row was moved by key the focus goes with it; at an end, where that arrow is out of use, to the other one. */
export function focusOnMove(list: 'pair' | 'mic', to: number, by: -1 | 1, count: number): void {
  const atEnd = by < 0 ? to === 0 : to === count - 1;
  const arrow = by < 0 !== atEnd ? 'up' : 'down';
  queueMicrotask(() => document.getElementById(`${list}-${arrow}-${to}`)?.focus());
}
