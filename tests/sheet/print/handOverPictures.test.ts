import { describe, expect, test } from 'vitest';
import { type KitSheet, type Pair, SUM_PICTURE_HZ, type Taken } from '../../../src/sheet/document/model';
import { handOver } from '../../../src/sheet/print/handOver';
import { DONE, start, withPairs } from '../../support/readings/sheets';
import { TAKEN } from '../../support/readings/taken';

const same = (delayMs: number, more: Partial<Taken> = {}): Taken => ({
  ...TAKEN,
  polarity: 'same',
  fuller: 'as-is',
  delayMs,
  ...more,
});
const snares = (more: Partial<Pair>): KitSheet => withPairs(start('eight'), { 'snareTop-snareBottom': more });

describe('pictures', () => {
  const flat = (db: number, at = -1, value = 0): (number | null)[] =>
    SUM_PICTURE_HZ.map((hz, i) => (hz < 50 ? null : i === at ? value : db));
  // 20·10^(20/20) = 200 Hz, within the band
  const before: Taken = { ...TAKEN, sumDb: flat(-6, 20, -12.4) };
  const after: Taken = { ...same(0.1), sumDb: flat(3), bInverted: true, lowCoherency: 0.7 };

  test('a pair that changed, with what was done and what the lines show', () => {
    const [picture] = handOver(snares({ before, after, done: { ...DONE, inverted: 'b' } })).pictures;
    expect(picture).toMatchObject({
      title: 'Snare top → Snare bottom (snare)',
      before: before.sumDb,
      after: after.sumDb,
    });
    // by hand: coherency −0.7, then 0.7: 10·log10(1.7/0.3) = 7.53, to half a dB; as much as the sum says is fuller
    expect(picture?.text).toEqual([
      'Snare bottom inverted.',
      'The drum’s low octave (177–354 Hz): 7.5 dB fuller.',
      'Deepest dip −12 dB at 200 Hz before, 3 dB at 50 Hz after.',
    ]);
  });

  test('none of one that stayed as it was, or without both lines', () => {
    const pictures = (more: Partial<Pair>) => handOver(snares(more)).pictures;
    const again: Taken = { ...before, delayMs: 0.1001 };
    expect(pictures({ before, after: again, done: DONE })).toEqual([]);
    expect(pictures({ before, after: { ...again, delayMs: 0.2 }, done: DONE })).toHaveLength(1);
    expect(pictures({ before, after: again, done: { ...DONE, movedCm: 1 } })).toHaveLength(1);
    expect(pictures({ before, after: { ...after, sumDb: null } })).toEqual([]);
    expect(pictures({ before })).toEqual([]);
    expect(pictures({ before, after: { ...again, polarity: 'same' } })).toHaveLength(1);
    // an unsure polarity is no change
    expect(pictures({ before, after: { ...again, polarity: 'same', sure: false } })).toEqual([]);
  });

  test('unsure ones are called so; a switch that was turned is named; no octave, no word of it', () => {
    const unsure = { sure: false, fullerLowHz: null, fullerHighHz: null };
    const [picture] = handOver(snares({ before: { ...before, ...unsure }, after: { ...after, ...unsure } })).pictures;
    expect(picture?.text).toEqual([
      'Snare bottom inverted between the two.',
      'Deepest dip −12 dB at 200 Hz before, 3 dB at 50 Hz after.',
      'Both readings were uncertain.',
    ]);
  });
});
