import { describe, expect, test } from 'vitest';
import type { Pair, Taken } from '../../../src/sheet/document/model';
import { bringText, type RoundState, sayRound, sendsHands, takenText } from '../../../src/state/round/roundWords';
import { start } from '../../support/readings/sheets';
import { TAKEN } from '../../support/readings/taken';

const sheet = start('eight');
const pair = sheet.pairs.find(({ id }) => id === 'snareTop-snareBottom') as Pair;
const state = (fields: Partial<RoundState>): RoundState => ({
  sheet,
  pair,
  mode: 'measure',
  patching: false,
  swapped: false,
  feed: 'inputs',
  read: TAKEN,
  compared: null,
  now: new Date('2026-01-02T15:00:00Z'),
  ...fields,
});

describe('what a pair needs before it can be read', () => {
  test('is patched, opened, or isn’t there', () => {
    expect(bringText(sheet, pair, 'inputs', false)).toMatch(
      /^Patch Snare top .*to interface input 1 and Snare bottom .*to interface input 2, then single hits on the snare/,
    );
    expect(bringText(sheet, pair, 'recording', false)).toBe('Open the recording of Snare top and Snare bottom.');
    expect(bringText(sheet, pair, 'example', false)).toBe('Open the example of Snare top and Snare bottom.');
    expect(bringText(sheet, pair, 'no-example', false)).toMatch(/^The example kit doesn’t have this pair/);
  });

  test('is what the strip says while it is being patched', () => {
    for (const feed of ['inputs', 'recording', 'no-example'] as const)
      expect(sayRound(state({ patching: true, feed }))).toBe(bringText(sheet, pair, feed, false));
  });
});

describe('hands are sent to the kit', () => {
  const compared = (change: 'same' | 'moved' | 'polarity') => ({
    change,
    fartherCm: 3,
    pathsCm: null,
    seenFromCm: 0.5,
  });
  test('where a cable, a switch or a stand is to be looked at, and nowhere else', () => {
    expect(sendsHands(state({}))).toBe(false);
    expect(sendsHands(state({ read: { ...TAKEN, polarity: 'same' } }))).toBe(true);
    expect(sendsHands(state({ read: { ...TAKEN, polarity: 'same', sure: false } }))).toBe(false);
    expect(sendsHands(state({ mode: 'check', compared: compared('same') }))).toBe(false);
    expect(sendsHands(state({ mode: 'check', compared: compared('moved') }))).toBe(true);
    expect(sendsHands(state({ mode: 'check', compared: compared('polarity') }))).toBe(true);
    // while it is being patched the patch has cautions of its own
    expect(sendsHands(state({ patching: true, read: { ...TAKEN, polarity: 'same' } }))).toBe(false);
  });
});

test('a reading in one line tells the path no finer than the meter does', () => {
  const of = (delayMs: number, uncertaintyMs: number): Taken => ({ ...TAKEN, delayMs, uncertaintyMs });
  // 34.32 cm in a ms
  expect(takenText(of(2.3 / 34.32, 0.4 / 34.32))).toMatch(/^inverted, B 2\.5 cm further ±4 mm \(90 %\)/);
  expect(takenText(of(2.3 / 34.32, 1.6 / 34.32))).toMatch(/^inverted, B 2 cm further ±1\.6 cm \(90 %\)/);
  expect(takenText(of(-101.3 / 34.32, 17 / 34.32))).toMatch(/^inverted, A 101 cm further ±17 cm \(90 %\)/);
});
