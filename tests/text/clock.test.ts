import { expect, it } from 'vitest';
import { clockText, dayText, minuteText } from '../../src/text/clock';

/** In the place where the test runs. */
const local = (month: number, day: number, hours: number, minutes: number): Date =>
  new Date(2026, month - 1, day, hours, minutes);
const NOW = local(5, 9, 18, 0);

it.each([
  ['earlier today', clockText(local(5, 9, 4, 7).toISOString(), NOW), '04:07'],
  ['the day before', clockText(local(5, 8, 23, 59).toISOString(), NOW), '8 May, 23:59'],
  ['the same day of another year', clockText(new Date(2025, 4, 9, 12, 0).toISOString(), NOW), '9 May, 12:00'],
  ['a day', dayText(NOW), '9 May'],
  ['for paper', minuteText('2026-01-02T03:04:05.678Z'), '2026-01-02 03:04'],
  ['what is no time', minuteText('x'), 'x'],
])('%s', (_, text, expected) => {
  expect(text).toBe(expected);
});
