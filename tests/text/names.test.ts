import { describe, expect, it } from 'vitest';
import {
  calledName,
  drumName,
  drumNumber,
  givenDrumName,
  kitName,
  letterName,
  microphoneName,
  pairName,
  patchedName,
  sheetDrumName,
  theDrum,
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
  ['a letter with a long label', letterName('B', 'below the wires, 4 cm from them'), 'B (below the wires)'],
  ['a letter whose label is long to its end', letterName('B', 'x'.repeat(29)), 'B'],
  ['a microphone aloud', calledName('B', ' Snare bottom '), 'Snare bottom'],
  ['a microphone without a label aloud', calledName('B', ' '), 'B'],
  ['one that never had a label aloud', calledName('A', undefined), 'A'],
  ['the longest that is said', calledName('A', 'x'.repeat(28)), 'x'.repeat(28)],
  ['one that can’t be said', calledName('A', 'above the rim, 16 cm from the stick'), 'A'],
  ['one of two', whichText('b'), 'B'],
  ['both', whichText('both'), 'A and B'],
  ['a drum of the sheet', sheetDrumName('snare'), 'snare'],
  ['a drum that nobody named', sheetDrumName(''), 'unnamed drum'],
  ['a drum that is heard', drumNumber(2), 'drum 2'],
  ['one that somebody named', drumNumber(2, 'snare'), 'snare'],
  ['one with an empty name', drumNumber(2, ' '), 'drum 2'],
  ['it in a sentence', theDrum(2, 'floor tom'), 'the floor tom'],
  ['a number in a sentence', theDrum(2), 'drum 2'],
  ['one of several toms in a sentence', theDrum(2, 'tom 1'), 'tom 1'],
  ['a name of one’s own in a sentence', theDrum(2, 'Old Thunder'), 'Old Thunder'],
  ['a usual name as it was typed', givenDrumName(' Hi-Hat '), 'hi-hat'],
  ['a name of one’s own as it was typed', givenDrumName('Old  Thunder'), 'Old Thunder'],
  ['no name', givenDrumName('  '), null],
  ['a kit', kitName('Rehearsal barn'), 'Rehearsal barn'],
  ['a kit without a name', kitName(''), 'unnamed kit'],
])('%s reads %s', (_, text, expected) => {
  expect(text).toBe(expected);
});

describe('drums that are heard', () => {
  it('have the middle of their energy, and what it is: a kick under a cymbal may have it above a snare', () => {
    const drums = [drum(1, { centreHz: 873 }), drum(2, { centreHz: 551 }), drum(4, { centreHz: 1234 })];
    expect(drums.map((one) => drumName(one, { drums }))).toEqual([
      'drum 1 (around 873 Hz in A)',
      'drum 2 (around 551 Hz in A)',
      'drum 4 (around 1.2 kHz in A)',
    ]);
    // one without, one alone
    expect(drumName(drum(3, { centreHz: null }), { drums })).toBe('drum 3');
    expect(drumName(drum(1), { drums: [drum(1)] })).toBe('drum 1 (around 62 Hz in A)');
  });

  it('have their names instead, where somebody said them, and the microphones theirs', () => {
    const drums = [drum(1), drum(2, { levelBDbfs: -3 })];
    expect(drumName(drum(1), { drums }, 'kick')).toBe('kick');
    const mics = { a: 'Snare top', b: 'Overhead' };
    expect(drumName(drums[1] as (typeof drums)[0], { drums }, null, mics)).toBe(
      'drum 2 (loudest in Overhead, around 62 Hz in Snare top)',
    );
  });

  it('are told by their level in B, where one is clearly the loudest there', () => {
    const names = (one: number | null, two: number | null): string[] => {
      const drums = [drum(1, { levelBDbfs: one }), drum(2, { levelBDbfs: two, centreHz: null })];
      return drums.map((d) => drumName(d, { drums }));
    };
    expect(names(-20, -9)).toEqual(['drum 1 (around 62 Hz in A)', 'drum 2 (loudest in B)']);
    expect(names(-9, -20)).toEqual(['drum 1 (loudest in B, around 62 Hz in A)', 'drum 2']);
    for (const close of [names(-20, -18), names(null, -9), names(-9, null)])
      expect(close).toEqual(['drum 1 (around 62 Hz in A)', 'drum 2']);
  });
});
