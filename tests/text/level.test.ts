import { describe, expect, it } from 'vitest';
import { dbFigure, dbfsFigure, dbText, fullerFigure, gainFigure, gainText, wholeDbText } from '../../src/text/level';

it.each([
  [dbText(3.3), '3.5 dB'],
  [dbText(-3.2), '3 dB'],
  [dbText(9.9), '10 dB'],
  [dbText(12.6), '13 dB'],
  [gainText(12.36), '+12 dB'],
  [gainText(-7.83), '−8 dB'],
  [gainFigure(0.2), '±0'],
  [gainFigure(-0.26), '−0.5'],
  [dbFigure(-3.14), '−3.1 dB'],
  [dbFigure(7.84), '7.8 dB'],
  [wholeDbText(-14.5), '−14 dB'],
  [wholeDbText(-14.6), '−15 dB'],
  [wholeDbText(-0.4), '0 dB'],
  [dbfsFigure(-12.34), '−12.3 dBFS'],
  [dbfsFigure(null), '–'],
])('%s reads %s', (text, expected) => {
  expect(text).toBe(expected);
});

describe('which polarity sums to more', () => {
  it.each([
    ['as-is', false, 'as it is, by 2.5 dB'],
    ['inverted', false, 'with B inverted, by 2.5 dB'],
    ['as-is', true, 'with “Invert B here” on, by 2.5 dB'],
    ['inverted', true, 'with “Invert B here” off, by 2.5 dB'],
    ['either', true, 'no difference (under 1 dB)'],
    [null, true, '–'],
  ] as const)('%s with the meter’s invert %s: %s', (fuller, invertB, text) => {
    expect(fullerFigure(fuller, fuller === 'as-is' ? 2.5 : -2.5, invertB)).toBe(text);
  });
});
