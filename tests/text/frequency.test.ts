import { expect, it } from 'vitest';
import { bandText, hzLabel, hzShort, hzText, notchesText, rateText } from '../../src/text/frequency';

it.each([
  [hzText(41.2), '41 Hz'],
  [hzText(181.4), '181 Hz'],
  [hzText(999.4), '999 Hz'],
  [hzText(999.6), '1 kHz'],
  [hzText(1000), '1 kHz'],
  [hzText(1234), '1.2 kHz'],
  [hzText(4410), '4.4 kHz'],
  [hzText(13654), '13.7 kHz'],
  [hzShort(50), '50'],
  [hzShort(1000), '1k'],
  [hzShort(1272), '1.3k'],
  [hzShort(9999), '10k'],
  [hzShort(12345), '12k'],
  [[1234, 3702, 6170].map(hzLabel).join(' '), '1.2 kHz 3.7k 6.2k'],
  [notchesText([1066, 3198, 5330]), '1.1, 3.2 kHz …'],
  [notchesText([0, 2132, 4264]), '0, 2.1 kHz …'],
  [notchesText([480, 1440]), '480 Hz, 1.4 kHz'],
  [notchesText([0]), '0 Hz'],
  [notchesText([]), 'none'],
  [bandText(44.2, 88.4), '44–88 Hz'],
  [bandText(30, 150), '30–150 Hz'],
  [bandText(800, 3000), '800 Hz–3 kHz'],
  [bandText(3000, 10000), '3–10 kHz'],
  [rateText(48000), '48 kHz'],
  [rateText(44100), '44.1 kHz'],
])('%s reads %s', (text, expected) => {
  expect(text).toBe(expected);
});
