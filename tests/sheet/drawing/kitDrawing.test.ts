/** The drawing's geometry: whatever the kit and the size, no name or mark lies on another one or on a foreign line. */
import { describe, expect, test } from 'vitest';
import { addMicrophone, addPair } from '../../../src/sheet/document/edits';
import type { KitSheet } from '../../../src/sheet/document/model';
import { STARTS } from '../../../src/sheet/document/starts';
import { type Box, outside, overlap, type Point } from '../../../src/sheet/drawing/geometry';
import { type DrawnSize, type KitDrawing, kitDrawing, paperSizes } from '../../../src/sheet/drawing/kitDrawing';
import { micNotes, pairMark } from '../../../src/sheet/drawing/pairMarks';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { read, taken } from '../../support/readings/kits';
import { largeKit } from '../../support/readings/largeKit';
import { start, withPairs } from '../../support/readings/sheets';

const DESK: DrawnSize = { width: 940, height: 600, letters: 14 };
const PHONE: DrawnSize = { width: 358, height: 500, letters: 12 };
const SIZES: readonly DrawnSize[] = [
  { width: 1150, height: 640, letters: 16 },
  DESK,
  { width: 790, height: 430, letters: 14 },
  { width: 770, height: 700, letters: 14 },
  PHONE,
];

const drawn = (sheet: KitSheet, size: DrawnSize, next: string | null = null): KitDrawing => {
  const choice = kitSystem(sheet).choice;
  const marks = sheet.pairs.map((pair) => pairMark(sheet, choice, pair, next));
  return kitDrawing(sheet, marks, micNotes(sheet, choice), size);
};

/** Every pair read and accepted: every third inverted, every fourth uncertain. */
function measured(sheet: KitSheet): KitSheet {
  const readings = sheet.pairs.map(({ id }, i) => {
    const inverted = i % 3 === 0;
    const sure = i % 4 !== 3;
    return [
      id,
      taken(inverted ? 'inverted' : 'same', 0.3 + 0.2 * i, inverted ? 'inverted' : 'as-is', { sure }),
    ] as const;
  });
  return withPairs(
    read(sheet, Object.fromEntries(readings)),
    Object.fromEntries(sheet.pairs.map(({ id }) => [id, {}])),
  );
}

/** Fourteen mics and two more, each of these in a pair with every third one. */
function sixteen(): KitSheet {
  let sheet = addMicrophone(addMicrophone(start('fourteen'), 'Ride', 'ride', 'top'), 'Crash', 'crash', 'top');
  const [ride, crash] = sheet.microphones.slice(-2).map(({ id }) => id) as [string, string];
  for (const [i, { id }] of start('fourteen').microphones.entries())
    if (i % 3 === 0) sheet = addPair(addPair(sheet, id, ride, 'other', 'ride'), id, crash, 'other', 'crash');
  return sheet;
}

const KITS: readonly (readonly [string, KitSheet])[] = [
  ...STARTS.map(({ id }) => [id, measured(start(id))] as const),
  ['sixteen', measured(sixteen())],
  ['fourteen, nothing read', start('fourteen')],
];

describe.each(KITS)('%s', (_, sheet) => {
  test.each([...SIZES, ...paperSizes(sheet.microphones.length)])(
    '$width × $height: nothing lies on anything else',
    (size) => {
      const { microphones, drums, pairs, reach } = drawn(sheet, size);
      expect([microphones.length, pairs.length]).toEqual([sheet.microphones.length, sheet.pairs.length]);
      const all: Box[] = [
        ...microphones.map(({ at }) => ({ ...at, width: 2 * reach, height: 2 * reach })),
        ...microphones.flatMap(({ name }) => name ?? []),
        ...drums.flatMap(({ name }) => name ?? []),
        ...pairs.flatMap(({ spot }) => spot?.box ?? []),
      ];
      for (const [i, box] of all.entries()) {
        expect(outside(box, size)).toBe(0);
        expect(all.slice(i + 1).filter((other) => overlap(box, other) > 0)).toEqual([]);
      }
    },
  );

  test.each(SIZES.slice(0, 4))('$width × $height: every mic has its name', (size) => {
    const { microphones } = drawn(sheet, size);
    expect(microphones.filter(({ name }) => name === null).map(({ lines }) => lines[0])).toEqual([]);
  });
});

/** Points on a path of one straight or one quadratic stroke. */
function pointsOf(path: string): Point[] {
  const n = (path.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
  const [x0, y0] = n as [number, number];
  const [x2, y2] = n.slice(-2) as [number, number];
  const [cx, cy] = n.length === 6 ? (n.slice(2, 4) as [number, number]) : [(x0 + x2) / 2, (y0 + y2) / 2];
  return Array.from({ length: 41 }, (_, i) => {
    const t = i / 40;
    const of = (a: number, b: number, c: number): number => (1 - t) ** 2 * a + 2 * t * (1 - t) * b + t * t * c;
    return { x: of(x0, cx, x2), y: of(y0, cy, y2) };
  });
}

test('a mark never lies on another pair’s line', () => {
  let marks = 0;
  for (const [name, sheet] of KITS)
    for (const size of [...SIZES, ...paperSizes(sheet.microphones.length)]) {
      const { pairs } = drawn(sheet, size);
      for (const { spot, mark } of pairs) {
        if (!spot) continue;
        marks++;
        const { x, y, width, height } = spot.box;
        const covered = pairs
          .filter((one) => one.mark !== mark)
          .flatMap(({ path }) => pointsOf(path))
          .filter((p) => Math.abs(p.x - x) < width / 2 && Math.abs(p.y - y) < height / 2);
        expect(covered, `${name}, ${size.width}: ${mark.pair}`).toEqual([]);
      }
    }
  expect(marks).toBeGreaterThan(150);
});

test('on a desk a usual kit shows nearly all its marks; what is next is always shown', () => {
  for (const size of SIZES.slice(0, 2)) {
    const eight = drawn(measured(start('eight')), size).pairs;
    expect(eight.filter(({ spot }) => spot === null).length).toBeLessThanOrEqual(2);
  }
  for (const id of ['two', 'three', 'four', 'eight', 'fourteen'])
    for (const size of SIZES) {
      const sheet = start(id);
      for (const { id: pair } of sheet.pairs) {
        const next = drawn(sheet, size, pair).pairs.find(({ mark }) => mark.next);
        expect(next?.spot, `${id}, ${size.width}: ${pair}`).not.toBeNull();
      }
    }
});

test('two pairs of the same two mics have lines beside each other', () => {
  const sheet = addPair(start('four'), 'overheadLeft', 'overheadRight', 'two-overheads', 'kick');
  const both = sheet.pairs.filter(({ a, b }) => a === 'overheadLeft' && b === 'overheadRight').map(({ id }) => id);
  const [p, q] = drawn(sheet, DESK).pairs.flatMap(({ mark, middle }) => (both.includes(mark.pair) ? [middle] : []));
  expect(Math.hypot((p as Point).x - (q as Point).x, (p as Point).y - (q as Point).y)).toBeGreaterThan(10);
});

test('32 mics and 500 pairs; mics on one spot with names of 80 letters: drawn within the drawing', () => {
  expect(drawn(largeKit({ microphones: 32, drums: 4, readings: 500 }), DESK).pairs).toHaveLength(500);
  const heap: KitSheet = {
    ...start('eight'),
    microphones: start('eight').microphones.map((one) => ({ ...one, label: 'x'.repeat(80), place: { x: 1, y: 1 } })),
  };
  for (const { at, name } of drawn(heap, PHONE).microphones) {
    expect(outside({ ...at, width: 1, height: 1 }, PHONE)).toBe(0);
    if (name) expect(outside(name, PHONE)).toBe(0);
  }
});
