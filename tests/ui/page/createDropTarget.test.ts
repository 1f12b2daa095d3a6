import { type Accessor, createRoot } from 'solid-js';
import { expect, test } from 'vitest';
import { createDropTarget, sortDropped } from '../../../src/ui/page/createDropTarget';
import { eventOf } from './event';

const file = (name: string): File => ({ name }) as File;
const carrying = (...files: File[]) => ({ dataTransfer: { types: ['Files'], files } });
const TEXT = { dataTransfer: { types: ['text/plain'], files: [] } };

function bench() {
  const target = new EventTarget();
  const taken: string[][] = [];
  let dropping: Accessor<boolean> = () => false;
  const dispose = createRoot((end) => {
    dropping = createDropTarget({ onFiles: (files) => void taken.push(files.map(({ name }) => name)), target });
    return end;
  });
  const send = (type: string, parts: Record<string, unknown>): boolean => !target.dispatchEvent(eventOf(type, parts));
  return { taken, send, dispose, dropping: () => dropping() };
}

test('files over the page are said, and taken when they are dropped', () => {
  const { taken, send, dropping } = bench();
  expect([send('dragover', carrying()), dropping()]).toEqual([true, true]);
  // from one part of the page to another
  send('dragleave', { relatedTarget: new EventTarget() });
  expect(dropping()).toBe(true);
  send('dragleave', { relatedTarget: null });
  expect(dropping()).toBe(false);
  send('dragover', carrying());
  expect([send('drop', carrying(file('a.wav'), file('b.wav'))), dropping()]).toEqual([true, false]);
  expect(taken).toEqual([['a.wav', 'b.wav']]);
});

test('text that is dragged is the browser’s own; and nothing is taken once it is gone', () => {
  const { taken, send, dropping, dispose } = bench();
  expect([send('dragover', TEXT), send('drop', TEXT), dropping()]).toEqual([false, false, false]);
  dispose();
  expect(send('drop', carrying(file('a.wav')))).toBe(false);
  expect(taken).toEqual([]);
});

test('a sheet’s file comes alone; everything else is taken for recordings', () => {
  const [sheet, a, b] = [file('Quay.KIT.JSON'), file('a.wav'), file('b.wav')];
  expect(sortDropped([sheet])).toEqual({ sheet });
  for (const recordings of [[a], [a, b], [sheet, a], [sheet, sheet], []])
    expect(sortDropped(recordings)).toEqual({ recordings });
});

test('of a folder the tracks in it are taken, those of folders in it and other files aren’t', async () => {
  const entry = (name: string, isFile = true) => ({
    name,
    isFile,
    file: (give: (it: File) => void) => give(file(name)),
  });
  const some = [
    [entry('02 Snare.wav'), entry('notes.txt'), entry('edits', false)],
    [entry('01 Kick.FLAC'), entry('.hidden.wav')],
    [],
  ];
  const folder = {
    name: 'Take 3',
    isDirectory: true,
    createReader: () => ({ readEntries: (give: (it: unknown) => void) => give(some.shift()) }),
  };
  const { taken, send } = bench();
  const items = [{ webkitGetAsEntry: () => folder }, { webkitGetAsEntry: () => ({ isDirectory: false }) }];
  send('drop', { dataTransfer: { types: ['Files'], files: [file('Take 3'), file('03 OH.wav')], items } });
  await new Promise((done) => setTimeout(done));
  expect(taken).toEqual([['03 OH.wav', '02 Snare.wav', '01 Kick.FLAC']]);
});
