/** Which of a sheet’s mics the tracks of a take are. */
import { expect, test } from 'vitest';
import { guessMic } from '../../../src/advice/names/guessPair';
import { newMicrophone } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { matchTracks, micOfSheet } from '../../../src/sheet/tracks/sheetMics';

const eleven = sheetFrom(STARTS.find(({ id }) => id === 'eleven') as (typeof STARTS)[number], 'kit', 'Kit').microphones;
const tracksOf = (names: readonly string[]) => names.map((name) => ({ file: `${name}.wav`, mic: guessMic(name) }));

test('a session’s usual names find the mics of a usual sheet, each its own', () => {
  const names = [
    '01 Kick In',
    '02 BD out',
    '03 Kick Sub',
    '04 SN Top',
    '05 Snare Btm',
    '06 HH',
    '07 Rack Tom',
    '08 Floor Tom',
    '09 OH L',
    '10 OH R',
    '11 Room',
  ];
  const matched = matchTracks(tracksOf(names), eleven);
  expect(names.map((name) => matched.get(`${name}.wav`))).toEqual(eleven.map(({ id }) => id));
});

test('one to one: of two tracks that a mic fits the better has it; what fits none has none', () => {
  const matched = matchTracks(tracksOf(['Snare', 'Snare top', 'Cowbell', 'Kick']), eleven);
  expect([...matched]).toEqual([
    ['Snare top.wav', 'snareTop'],
    ['Kick.wav', 'kickIn'],
  ]);
  expect([...matchTracks(tracksOf(['Kick']), [newMicrophone('m1', 'Kick out', 'kick', 'outside', '')])]).toHaveLength(
    1,
  );
});

test('a mic that is called otherwise is known by its drum and side, and its own name finds it', () => {
  const mics = [
    newMicrophone('m1', 'The old one', 'snare', 'bottom', '4'),
    newMicrophone('m2', 'Ears', '', 'above, left', ''),
  ];
  expect(mics.map(micOfSheet)).toMatchObject([
    { drum: 'snare', place: 'bottom', label: 'The old one' },
    { drum: '', place: 'overhead', side: 'left', label: 'Ears' },
  ]);
  const told = { file: 'Audio 1.wav', mic: micOfSheet(mics[0] as (typeof mics)[number]) };
  expect([...matchTracks([told, ...tracksOf(['OH L'])], mics)]).toEqual([
    ['Audio 1.wav', 'm1'],
    ['OH L.wav', 'm2'],
  ]);
});
