/** A take in hand: what is said of its tracks has it read again, and is there the next time. */
import { describe, expect, test } from 'vitest';
import { guessMic } from '../../../src/advice/names/guessPair';
import type { AskedTake, TakeEvents } from '../../../src/audio/take/readTakeFiles';
import { type Keeper, memoryKeeper } from '../../../src/state/settings/keeper';
import { createTake } from '../../../src/state/take/take';
import type { TakeReport } from '../../../src/take/model';

const file = (name: string): File => new File([], name);

function inHand(keeper: Keeper = memoryKeeper()) {
  const asked: AskedTake[] = [];
  const cancelled: number[] = [];
  let events: TakeEvents | null = null;
  const take = createTake({
    keeper,
    temperatureC: () => 20,
    now: () => new Date(0),
    readFiles(what, to) {
      const n = asked.push(what);
      events = to;
      return { cancel: () => void cancelled.push(n) };
    },
  });
  return { take, asked, cancelled, events: () => events as TakeEvents };
}

describe('what a person says of a track', () => {
  test('the take is read again by it, the reading before ends, and the list stays', () => {
    const { take, asked, cancelled, events } = inHand();
    take.read([file('Audio 1.wav')]);
    events().onReport({ tracks: [{ file: 'Audio 1.wav' }], drums: [] } as unknown as TakeReport);
    const snare = guessMic('Snare');
    take.tell('Audio 1.wav', snare);
    expect([take.fate(), take.report(), take.tracks().length, cancelled]).toEqual(['reading', null, 1, [1]]);
    expect(asked[1]?.told.get('Audio 1.wav')).toEqual(snare);
    take.tell('Audio 1.wav', null);
    expect(asked[2]?.told.size).toBe(0);
  });

  test('it is remembered by the file’s name', () => {
    const keeper = memoryKeeper();
    inHand(keeper).take.tell('Audio 1.wav', 'left-out');
    const { take, asked } = inHand(keeper);
    take.read([file('Audio 1.wav')]);
    expect(asked[0]?.told.get('Audio 1.wav')).toBe('left-out');
  });

  test.for([
    ['nonsense', 'nonsense'],
    ['no list', '{}'],
    ['a mic that is none', '[["Audio 1.wav",{"drum":"snare"}],["b",{"drum":3}],7]'],
    ['a place that there isn’t', '[["a",{"drum":"snare","place":"toString","side":"","number":"","label":""}]]'],
  ] as const)('%s in the storage is passed over', ([, text]) => {
    const keeper = memoryKeeper();
    keeper.set('takeMics', text);
    expect(inHand(keeper).take.told().size).toBe(0);
  });
});

describe('a folder', () => {
  test('what can’t be a track is passed over', () => {
    const { take, asked } = inHand();
    take.readFolder(
      ['.DS_Store', '01 Kick.wav', '._01 Kick.wav', 'notes.txt', '01 Kick.wav.reapeaks', '02 OH.FLAC'].map(file),
    );
    expect(asked[0]?.files.map(({ name }) => name)).toEqual(['01 Kick.wav', '02 OH.FLAC']);
  });

  test('nothing is left: one sentence, and nothing is read', () => {
    const { take, asked } = inHand();
    take.readFolder(['.DS_Store', 'notes.txt'].map(file));
    expect([take.fate(), asked.length]).toEqual(['failed', 0]);
    expect(take.problem()).toMatch(/no audio file in this folder/);
  });
});
