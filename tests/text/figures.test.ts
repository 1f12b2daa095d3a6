import { describe, expect, it } from 'vitest';
import {
  bandText,
  dataNumber,
  dbfsText,
  fullerText,
  hzShort,
  hzText,
  msText,
  numberRuns,
  percentText,
  samplesText,
  signed,
} from '../../src/text/figures';
import { fixed, lengthText, pathText } from '../../src/text/lengths';

describe('numbers as text', () => {
  it.each([
    [fixed(-0.04, 1), '0.0'],
    [fixed(-0.06, 1), '−0.1'],
    [fixed(12.345, 2), '12.35'],
    [signed(3.12, 1), '+3.1'],
    [signed(-3.12, 1), '−3.1'],
    [signed(0.004, 2), '0.00'],
    [dbfsText(-12.34), '−12.3 dBFS'],
    [dbfsText(null), '–'],
    [hzText(181.4), '181 Hz'],
    [hzText(999.6), '1.00 kHz'],
    [hzText(4410), '4.41 kHz'],
    [hzText(13654), '13.7 kHz'],
    [hzShort(50), '50'],
    [hzShort(1000), '1k'],
    [hzShort(1272), '1.3k'],
    [hzShort(9999), '10k'],
    [bandText(44.2, 88.4), '44–88 Hz'],
    [bandText(800, 3000), '800 Hz–3.00 kHz'],
    [lengthText(0.42), '4 mm'],
    [lengthText(-2.51), '2.5 cm'],
    [lengthText(94.88), '94.9 cm'],
    [lengthText(137), '1.37 m'],
    [pathText(2.51), 'B 2.5 cm farther'],
    [pathText(-2.51), 'B 2.5 cm closer'],
    [pathText(0.02), 'B level with A'],
    [pathText(null), '–'],
    [msText(0.0731), '+0.073 ms'],
    [msText(-12.3456), '−12.35 ms'],
    [samplesText(-3.22), '−3.2 samples'],
    [percentText(0.635), '64 %'],
  ])('%s reads %s', (text, expected) => {
    expect(text).toBe(expected);
  });

  it('gives machines plain numbers, and nothing where there is none', () => {
    expect(dataNumber(-3.21987, 2)).toBe('-3.22');
    for (const nothing of [null, undefined, Number.NaN, Number.POSITIVE_INFINITY]) expect(dataNumber(nothing)).toBe('');
  });
});

describe('which polarity sums to more', () => {
  it.each([
    ['as-is', false, 'as it is, by 2.5 dB'],
    ['inverted', false, 'with B inverted, by 2.5 dB'],
    ['as-is', true, 'as the meter has it, by 2.5 dB'],
    ['inverted', true, 'without the meter’s invert, by 2.5 dB'],
    ['either', true, 'either, below 1 dB'],
    [null, true, '–'],
  ] as const)('%s with the meter’s invert %s: %s', (fuller, invertB, text) => {
    expect(fullerText(fuller, fuller === 'as-is' ? 2.5 : -2.5, invertB)).toBe(text);
  });
});

describe('numbers and their units', () => {
  it('keep together, and nothing is lost', () => {
    const text = '6 of 6 hits agree, within ±4 mm (90 %). Then bring it 2.5 cm in, −3.1 dB at 20 moments.';
    const runs = numberRuns(text);
    expect(runs.filter((_, i) => i % 2 === 1)).toEqual(['±4 mm', '(90 %)', '2.5 cm', '−3.1 dB']);
    expect(runs.join('')).toBe(text);
  });
});
