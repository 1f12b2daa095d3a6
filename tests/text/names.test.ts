import { describe, expect, it } from 'vitest';
import {
  drumName,
  drumNumber,
  kitName,
  letterName,
  microphoneName,
  pairName,
  patchedName,
  sheetDrumName,
  whichText,
} from '../../src/text/names';
import { drum } from '../advice/readings';

it.each([
  ['a microphone', microphoneName('Snare top'), 'Snare top'],
  ['one with spaces round it', microphoneName(' Snare top '), 'Snare top'],
  ['one without a label', microphoneName(' '), 'unnamed'],
  ['one that isn’t there', microphoneName(undefined), 'unnamed'],
  ['with its input', patchedName('Snare top', '5'), 'Snare top (input 5)'],
  ['without an input', patchedName('Snare top', ''), 'Snare top'],
  ['an input alone', patchedName('', '5'), 'unnamed (input 5)'],
  ['neither', patchedName(undefined, undefined), 'unnamed'],
  ['a pair', pairName('Snare top', 'Snare bottom'), 'Snare top & Snare bottom'],
  ['a pair with one unnamed', pairName('Snare top', ''), 'Snare top & unnamed'],
  ['a letter', letterName('B', 'bottom'), 'B (bottom)'],
  ['a letter alone', letterName('A', ' '), 'A'],
  ['a letter that never had one', letterName('A', undefined), 'A'],
  ['one of two', whichText('b'), 'B'],
  ['both', whichText('both'), 'A and B'],
  ['a drum of the sheet', sheetDrumName('snare'), 'snare'],
  ['a drum that nobody named', sheetDrumName(''), 'unnamed drum'],
  ['a drum that is heard', drumNumber(2), 'drum 2'],
  ['a kit', kitName('Rehearsal barn'), 'Rehearsal barn'],
  ['a kit without a name', kitName(''), 'unnamed kit'],
])('%s reads %s', (_, text, expected) => {
  expect(text).toBe(expected);
});

describe('drums that are heard', () => {
  it('have the middle of their energy, and what it is: a kick under a cymbal may have it above a snare', () => {
    const drums = [drum(1, { centreHz: 873 }), drum(2, { centreHz: 551 }), drum(4, { centreHz: 1234 })];
    expect(drums.map((one) => drumName(one, { drums }))).toEqual([
      'drum 1 (energy round 873 Hz in A)',
      'drum 2 (energy round 551 Hz in A)',
      'drum 4 (energy round 1.2 kHz in A)',
    ]);
    // one without, one alone
    expect(drumName(drum(3, { centreHz: null }), { drums })).toBe('drum 3');
    expect(drumName(drum(1), { drums: [drum(1)] })).toBe('drum 1 (energy round 62 Hz in A)');
  });

  it('are told by their level in B, where one is clearly the loudest there', () => {
    const names = (one: number | null, two: number | null): string[] => {
      const drums = [drum(1, { levelBDbfs: one }), drum(2, { levelBDbfs: two, centreHz: null })];
      return drums.map((d) => drumName(d, { drums }));
    };
    expect(names(-20, -9)).toEqual(['drum 1 (energy round 62 Hz in A)', 'drum 2 (loudest in B)']);
    expect(names(-9, -20)).toEqual(['drum 1 (loudest in B, energy round 62 Hz in A)', 'drum 2']);
    for (const close of [names(-20, -18), names(null, -9), names(-9, null)])
      expect(close).toEqual(['drum 1 (energy round 62 Hz in A)', 'drum 2']);
  });
});
