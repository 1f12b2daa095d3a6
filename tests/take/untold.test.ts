/** A drum whose own mic can be compared with none is told as such, in place of "Nothing wrong found". */
import { expect, test } from 'vitest';
import { takeReport } from '../../src/cli/takeReport';
import type { TakeReport } from '../../src/take/model';
import { untoldDrums } from '../../src/take/report/untold';
import { drumReport } from './reports';

const reason = '02 Snare hears it 49 cm earlier than 01 Kick.';
const take = (state: 'unclear' | 'measured'): TakeReport => ({
  ...({ durationSeconds: 60, sampleRate: 48000, tracks: [], faults: [], hits: [] } as unknown as TakeReport),
  drums: [
    drumReport('kick', '01 Kick', [{ a: '01 Kick', b: '02 Snare', state, reason }]),
    drumReport('snare', '02 Snare', [{ a: '02 Snare', b: '03 OH' }]),
  ],
});

test('on the page and by the command', () => {
  expect(untoldDrums(take('unclear'))).toEqual([{ drum: 'kick', reason }]);
  expect(untoldDrums(take('measured'))).toEqual([]);
  expect(takeReport(take('unclear'), [])).toContain('\nCan’t tell: kick.\n');
  expect(takeReport(take('measured'), [])).toContain('\nNothing wrong found.\n');
});
