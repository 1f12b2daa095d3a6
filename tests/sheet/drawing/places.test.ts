/** Where drums and mics stand by themselves, by what they are called; and where they were put. */
import { describe, expect, test } from 'vitest';
import {
  addMicrophone,
  changeMicrophone,
  placeDrum,
  placeMicrophone,
  removeMicrophone,
  usualPlaces,
} from '../../../src/sheet/document/edits';
import { readSheet, writeSheet } from '../../../src/sheet/document/file';
import type { KitSheet, Place } from '../../../src/sheet/document/model';
import { STARTS } from '../../../src/sheet/document/starts';
import { drumPlacesOf, microphonePlaces } from '../../../src/sheet/drawing/places';
import { placeText } from '../../../src/sheet/drawing/placeWords';
import { start } from '../../support/readings/sheets';

const placesOf = (sheet: KitSheet): Map<string, Place> => microphonePlaces(sheet, drumPlacesOf(sheet));
const of = (sheet: KitSheet, id: string): Place => placesOf(sheet).get(id) as Place;
const drumOf = (sheet: KitSheet, drum: string): Place =>
  drumPlacesOf(sheet).find((one) => one.drum === drum)?.place as Place;

test.each(STARTS.map(({ id }) => id))('%s: every mic has a place of its own, apart from all others', (id) => {
  const sheet = start(id);
  const places = [...placesOf(sheet).values()];
  expect(places).toHaveLength(sheet.microphones.length);
  for (const [i, p] of places.entries()) {
    expect(p.x >= 0 && p.x <= 1 && p.y >= 0 && p.y <= 1).toBe(true);
    for (const q of places.slice(i + 1)) expect(Math.hypot(p.x - q.x, p.y - q.y)).toBeGreaterThan(0.05);
  }
});

test('round a drummer who leads with the right hand: hi-hat and snare left, floor tom right, kick in front', () => {
  const sheet = start('fourteen');
  expect(drumOf(sheet, 'hi-hat').x).toBeLessThan(drumOf(sheet, 'snare').x);
  expect(drumOf(sheet, 'snare').x).toBeLessThan(0.5);
  expect(drumOf(sheet, 'floor tom').x).toBeGreaterThan(0.5);
  expect(drumOf(sheet, 'kick').y).toBeLessThan(drumOf(sheet, 'snare').y);
  expect(of(sheet, 'overheadLeft').x).toBeLessThan(0.5);
  expect(of(sheet, 'overheadRight').x).toBeGreaterThan(0.5);
  // inside the kick is on it, outside is in front of it
  expect(Math.abs(of(sheet, 'kickIn').y - drumOf(sheet, 'kick').y)).toBeLessThan(0.1);
  expect(of(sheet, 'kickOut').y).toBeLessThan(drumOf(sheet, 'kick').y - 0.1);
});

test('an overhead named after a drum stands on its side; drums that nobody knows are apart too', () => {
  expect(of(start('three'), 'overhead').x).toBeGreaterThan(0.5);
  const left = changeMicrophone(start('three'), 'overhead', { side: 'snare side' });
  expect(of(left, 'overhead').x).toBeLessThan(0.5);
  const more = addMicrophone(addMicrophone(start('four'), 'Gong', 'gong'), 'Bell', 'bell');
  const [gong, bell] = [drumOf(more, 'gong'), drumOf(more, 'bell')];
  expect(Math.hypot(gong.x - bell.x, gong.y - bell.y)).toBeGreaterThan(0.1);
});

describe('what was put somewhere', () => {
  const put = placeMicrophone(start('eight'), 'snareTop', { x: 0.12345, y: 1.4 });

  test('stays there, to a thousandth and within the drawing; others stay where they were; it is kept', () => {
    expect(of(put, 'snareTop')).toEqual({ x: 0.123, y: 1 });
    const [before, after] = [placesOf(start('eight')), placesOf(put)];
    for (const id of ['kickIn', 'floorTom', 'overheadLeft']) expect(after.get(id)).toEqual(before.get(id));
    expect(readSheet(writeSheet(put, '2026-01-02T03:04:05Z'))).toEqual({ sheet: put });
  });

  test('goes along with its drum, and so do mics that stand there by themselves', () => {
    const from = drumOf(put, 'snare');
    const sheet = placeDrum(put, 'snare', from, { x: from.x + 0.2, y: from.y - 0.1 });
    expect(of(sheet, 'snareTop').x).toBeCloseTo(0.323, 9);
    expect(of(sheet, 'snareBottom').x - of(put, 'snareBottom').x).toBeCloseTo(0.2, 9);
    expect(drumOf(sheet, 'snare')).toEqual({ x: 0.52, y: 0.56 });
    expect(usualPlaces(sheet)).toEqual(start('eight'));
  });

  test('of a drum that is gone nothing is kept', () => {
    const sheet = placeDrum(start('eight'), 'floor tom', { x: 0.7, y: 0.7 }, { x: 0.9, y: 0.9 });
    expect(sheet.drumPlaces).toHaveLength(1);
    expect(removeMicrophone(sheet, 'floorTom').drumPlaces).toEqual([]);
  });
});

test('a place in words: by the nearest drum, and how far across', () => {
  const drums = drumPlacesOf(start('eight'));
  const snare = drumOf(start('eight'), 'snare');
  expect(placeText(snare, drums)).toBe('on the snare, 32 % from the left, 66 % from the front');
  expect(placeText({ x: snare.x - 0.15, y: snare.y }, drums)).toMatch(/^left of the snare, 17 %/);
  expect(placeText({ x: snare.x, y: snare.y + 0.2 }, drums)).toMatch(/^behind the snare/);
  expect(placeText({ x: 0.5, y: 0.25 }, [])).toBe('50 % from the left, 25 % from the front');
});
