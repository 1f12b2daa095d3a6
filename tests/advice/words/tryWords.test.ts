/** What is tried, in words. */
import { describe, expect, it } from 'vitest';
import { NOTHING_TRIED, type Tried } from '../../../src/advice/tryOut/tried';
import { tryOut } from '../../../src/advice/tryOut/tryOut';
import {
  gainColumn,
  noLevelText,
  nowColumn,
  triedColumn,
  triedText,
  tryText,
} from '../../../src/advice/words/tryWords';
import { measured, NO_SUM, reading, sumOf, tryable } from '../readings';

const here = { invertB: false, temperatureC: 20 };
const tried = (fields: Partial<Tried>): Tried => ({ ...NOTHING_TRIED, ...fields });

describe('what is tried', () => {
  it.each<[string, Partial<Tried>]>([
    ['As it is now', {}],
    ['Invert B', { invertB: true }],
    ['Invert B, 2.4 cm closer', { invertB: true, moveCm: 2.4 }],
    ['B 11 cm back, +3 dB', { moveCm: -11, trimDb: 3 }],
    ['B −1.5 dB', { trimDb: -1.5 }],
    ['Delay A by 1.2 ms in the mix', { delayMs: 1.2 }],
    ['Invert B, delay B by 0.5 ms in the mix', { invertB: true, delayMs: -0.5 }],
  ])('%s', (text, fields) => {
    expect(triedText(tried(fields), {})).toBe(text);
  });

  it('calls the mic by its name', () => {
    expect(triedText(tried({ moveCm: 3 }), { bLabel: 'Snare bottom' })).toBe('Snare bottom 3 cm closer');
  });

  it('with what it gains, to half a dB as the plan has it', () => {
    const r = measured('inverted', 0, sumOf({ here: true, polarity: 'inverted', delaySamples: 0, common: 0.5 }));
    // 10·log10(1.5/0.5) = 4.77 dB
    const sums = tryOut(r, here, tried({ invertB: true }));
    expect(tryText(tried({ invertB: true }), sums, {})).toBe('Invert B: low octave +5 dB, overall +5 dB');
    expect(tryText(NOTHING_TRIED, tryOut(r, here, NOTHING_TRIED), {})).toBe(
      'As it is now. Move the slider or press an option',
    );
  });

  it('says no figure where the sum nearly cancels: 10 dB below two that are unrelated, 7 below one alone', () => {
    const r = measured('same', 0, sumOf({ here: true, polarity: 'same', delaySamples: 0, common: 0.95 }));
    const sums = tryOut(r, here, tried({ invertB: true }));
    expect(tryText(tried({ invertB: true }), sums, {})).toBe(
      'Invert B: low octave nearly cancels, overall nearly cancels',
    );
    expect([nowColumn(sums.all), triedColumn(sums.all)]).toEqual(['+5.9', 'under −7']);
    // now 10·log10(1.95) = 2.9 dB over two unrelated
    expect(gainColumn(sums.all)).toBe('−13 or less');
  });

  it('says why there is no figure', () => {
    const none = tryOut(reading({ ...NO_SUM, state: 'unclear', hits: 6 }), here, tried({ moveCm: 3 }));
    expect([nowColumn(none.low), triedColumn(none.low)]).toEqual(['–', '–']);
    expect(noLevelText(none)).toContain('the whole band differs too much');
    const far = tryOut(tryable('same', 5), here, tried({ delayMs: 9 }));
    expect(noLevelText(far)).toBe('–: so far away the hits don’t tell.');
    expect(noLevelText(tryOut(tryable('same', 5), here, tried({ moveCm: 9 })))).toBe('');
  });
});
