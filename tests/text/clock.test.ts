import { expect, it } from 'vitest';
import { clockText, dayText, minuteText, spanOfTime, zoneText } from '../../src/text/clock';

/** In the place where the test runs. */
const local = (month: number, day: number, hours: number, minutes: number): Date =>
  new Date(2026, month - 1, day, hours, minutes);
const NOW = local(5, 9, 18, 0);

it.each([
  ['earlier today', clockText(local(5, 9, 4, 7).toISOString(), NOW), '04:07'],
  ['the day before', clockText(local(5, 8, 23, 59).toISOString(), NOW), '8 May, 23:59'],
  ['the same day of another year', clockText(new Date(2025, 4, 9, 12, 0).toISOString(), NOW), '9 May, 12:00'],
  ['a day', dayText(NOW), '9 May'],
  ['for paper', minuteText(local(1, 2, 3, 4).toISOString()), '2026-01-02 03:04'],
  ['what is no time', minuteText('x'), 'x'],
])('%s', (_, text, expected) => {
  expect(text).toBe(expected);
});

it.each([
  ['Europe/Berlin', '2026-05-09T13:02:00Z', '2026-05-09T13:30:00Z', '2026-05-09 15:02 to 15:30 UTC+2'],
  ['Europe/Berlin', '2026-01-09T22:50:00Z', '2026-01-09T23:30:00Z', '2026-01-09 23:50 to 2026-01-10 00:30 UTC+1'],
  // the clocks are put back in between
  ['Europe/Berlin', '2026-10-25T00:30:00Z', '2026-10-25T01:30:00Z', '2026-10-25 02:30 UTC+2 to 2026-10-25 02:30 UTC+1'],
  ['America/St_Johns', '2026-01-02T03:04:00Z', '2026-01-02T03:04:30Z', '2026-01-01 23:34 UTC−3:30'],
  ['UTC', '2026-01-02T03:04:00Z', '2026-01-02T04:04:00Z', '2026-01-02 03:04 to 04:04 UTC'],
])('local time with its zone: %s', (zone, first, last, expected) => {
  const before = process.env.TZ;
  process.env.TZ = zone;
  const text = spanOfTime(first, last);
  if (before === undefined) delete process.env.TZ;
  else process.env.TZ = before;
  expect(text).toBe(expected);
});

it('what is no time has no zone', () => expect(zoneText('x')).toBe('UTC'));
