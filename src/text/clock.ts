/** Times and days as people say them, in the place where the page runs, and for paper in UTC. */

const two = (n: number): string => String(n).padStart(2, '0');

/** "14:10" today, "24 Nov, 14:10" on another day. @param at ISO 8601 */
export function clockText(at: string, now: Date): string {
  const then = new Date(at);
  const time = `${two(then.getHours())}:${two(then.getMinutes())}`;
  if (then.toDateString() === now.toDateString()) return time;
  return `${then.toLocaleDateString('en-GB', { day: 'numeric', month: 'short' })}, ${time}`;
}

/** "14:10:32" */
export const secondsText = (at: Date): string => [at.getHours(), at.getMinutes(), at.getSeconds()].map(two).join(':');

/** "9 May" */
export function dayText(day: Date): string {
  return day.toLocaleDateString('en-GB', { day: 'numeric', month: 'long' });
}

/** "2026-01-02 03:04", UTC; what is no time is told as it stands. @param at ISO 8601 */
export function minuteText(at: string): string {
  const then = new Date(at);
  return Number.isNaN(then.getTime()) ? at : then.toISOString().slice(0, 16).replace('T', ' ');
}
