/** Times of the day as people say them, in the place where the page runs. */

const two = (n: number): string => String(n).padStart(2, '0');

/** "14:10" today, "24 Nov, 14:10" on another day. @param at ISO 8601 */
export function clockText(at: string, now: Date): string {
  const then = new Date(at);
  const time = `${two(then.getHours())}:${two(then.getMinutes())}`;
  if (then.toDateString() === now.toDateString()) return time;
  return `${then.toLocaleDateString('en-GB', { day: 'numeric', month: 'short' })}, ${time}`;
}
