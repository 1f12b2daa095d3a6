import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PAIR_KIND_IDS } from '../../../src/advice/plan/pairKinds';
import { readSheet, writeSheet } from '../../../src/sheet/document/file';
import type { KitSheet } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { BROKEN, changed, first, fourteen, MARKUP, SAVED } from '../../support/readings/brokenSheets';
import { TAKEN } from '../../support/readings/taken';

describe('starting points', () => {
  for (const start of STARTS)
    test(`${start.title}: every microphone is in a pair, every drum has a reference, it can be saved and read again`, () => {
      const sheet = sheetFrom(start, 'kit', start.title);
      const paired = new Set(sheet.pairs.flatMap(({ a, b }) => [a, b]));
      expect(sheet.microphones.map(({ id }) => id).filter((id) => !paired.has(id))).toEqual([]);
      expect(sheet.references.map(({ drum }) => drum).sort()).toEqual(
        [...new Set(sheet.pairs.map(({ drum }) => drum))].sort(),
      );
      expect(readSheet(writeSheet(sheet, SAVED))).toEqual({ sheet });
    });

  test('from two microphones to fourteen, and of each pair kind that the demo kit knows', () => {
    expect(STARTS.map(({ microphones }) => microphones.length)).toEqual([2, 3, 4, 8, 11, 14]);
    const kinds = new Set(fourteen.pairs.map(({ kind }) => kind));
    for (const kind of [
      'top-bottom',
      'same-side',
      'inside-outside',
      'close-overhead',
      'two-overheads',
      'low-end-driver',
    ])
      expect(kinds).toContain(kind);
  });
});

test('any sheet is the same after saving and reading', () => {
  const text = fc.string({ maxLength: 80, unit: 'binary' });
  const microphone = fc.record({
    label: text,
    drum: text,
    side: text,
    note: text,
    input: text,
    inverted: fc.boolean(),
    lowCut: text,
    pad: text,
    contour: text,
  });
  fc.assert(
    fc.property(
      fc.array(microphone, { minLength: 2, maxLength: 14 }),
      fc.array(fc.tuple(fc.nat(), fc.nat(), fc.constantFrom(...PAIR_KIND_IDS), text, fc.boolean()), { maxLength: 20 }),
      text,
      (microphones, pairs, name) => {
        const sheet: KitSheet = {
          ...fourteen,
          name,
          microphones: microphones.map((one, i) => ({ id: `m${i}`, ...one })),
          pairs: pairs.flatMap(([p, q, kind, drum, read], i) => {
            const [a, b] = [p % microphones.length, q % microphones.length];
            const taken = read ? TAKEN : null;
            return a === b
              ? []
              : [
                  {
                    id: `p${i}`,
                    a: `m${a}`,
                    b: `m${b}`,
                    kind,
                    drum,
                    before: taken,
                    after: null,
                    done: null,
                    acceptedAt: read ? SAVED : null,
                    checked: null,
                  },
                ];
          }),
          references: [{ drum: '__proto__', microphone: 'm0' }],
          follows: [{ microphone: 'm1', drum: 'constructor' }],
        };
        expect(readSheet(writeSheet(sheet, SAVED))).toEqual({ sheet });
      },
    ),
  );
});

test('a file of version 1 is brought up: what it didn’t keep isn’t known', () => {
  const text = readFileSync(new URL('version1.json', import.meta.url), 'utf8');
  const old = JSON.parse(text) as { version: number; kit: KitSheet };
  expect(old.version).toBe(1);
  const { sheet } = readSheet(text) as { sheet: KitSheet };
  const { pairs, ...rest } = old.kit;
  expect(sheet).toMatchObject(rest);
  expect(sheet.pairs.map(({ checked }) => checked)).toEqual(pairs.map(() => null));
  expect(sheet.pairs[0]?.before).toEqual({
    ...pairs[0]?.before,
    octaveCoherency: [null, null, null, null],
    sumDb: null,
  });
  expect([pairs[0]?.done?.inverted, sheet.pairs[0]?.done]).toEqual([true, { ...pairs[0]?.done, inverted: 'b' }]);
  // and from then on it is a sheet like any other
  expect(readSheet(writeSheet(sheet, SAVED))).toEqual({ sheet });
});

describe('broken files', () => {
  test('are fifty or more', () => expect(BROKEN.length).toBeGreaterThanOrEqual(50));

  for (const [name, text, says] of BROKEN)
    test(`${name}: one sentence, nothing taken, nothing run`, () => {
      const result = readSheet(text);
      expect(Object.keys(result)).toEqual(['problem']);
      const { problem } = result as { problem: string };
      expect(problem).toContain(says);
      expect(problem.length).toBeLessThan(220);
      expect(globalThis).not.toHaveProperty('harmed');
      expect({}).not.toHaveProperty('polluted');
    });

  test('names with markup are text like any other', () => {
    const result = readSheet(changed(first('label'), MARKUP));
    expect((result as { sheet: KitSheet }).sheet.microphones[0]?.label).toBe(MARKUP);
  });
});
