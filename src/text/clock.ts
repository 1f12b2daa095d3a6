/** Times and days as people say them, in the place where the page runs; on paper with its zone. */

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

/** "2026-01-02 03:04", as clocks stand where the page runs; what is no time is told as it stands. @param at ISO 8601 */
export function minuteText(at: string): string {
  const then = new Date(at);
  if (Number.isNaN(then.getTime())) return at;
  const day = [then.getFullYear(), two(then.getMonth() + 1), two(then.getDate())].join('-');
  return `${day} ${two(then.getHours())}:${two(then.getMinutes())}`;
}

/** "UTC+2", "UTC−3:30", "UTC": by how much clocks are ahead where the page runs, at that time. @param at ISO 8601 */
export function zoneText(at: string): string {
  const ahead = -new Date(at).getTimezoneOffset();
  if (Number.isNaN(ahead) || ahead === 0) return 'UTC';
  const [hours, minutes] = [Math.floor(Math.abs(ahead) / 60), Math.abs(ahead) % 60];
  return `UTC${ahead > 0 ? '+' : '−'}${hours}${minutes === 0 ? '' : `:${two(minutes)}`}`;
}

/** "2026-05-09 15:02 to 15:30 UTC+2": day and zone are said once where they are the same. @param first ISO 8601 */
export function spanOfTime(first: string, last: string): string {
  const [from, to] = [minuteText(first), minuteText(last)];
  const [zone, then] = [zoneText(first), zoneText(last)];
  if (zone !== then) return `${from} ${zone} to ${to} ${then}`;
  if (from === to) return `${from} ${zone}`;
  return `${from} to ${from.slice(0, 10) === to.slice(0, 10) ? to.slice(11) : to} ${zone}`;
}
