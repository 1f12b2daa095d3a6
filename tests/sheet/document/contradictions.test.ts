import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readSheet, writeSheet } from '../../../src/sheet/document/file';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { accepted, outcomeOf } from '../../../src/sheet/pair/outcome';
import { fourteen, SAVED } from '../../support/readings/brokenSheets';
import { CONTRADICTORY } from '../../support/readings/contradictorySheets';
import { curved, farther, TAKEN } from '../../support/readings/taken';

describe('a sheet that contradicts itself', () => {
  test('twenty and more of them', () => expect(CONTRADICTORY.length).toBeGreaterThanOrEqual(20));

  test.each(CONTRADICTORY)('%s: refused, the place and the reason named', (_, text, says) => {
    const result = readSheet(text);
    expect(Object.keys(result)).toEqual(['problem']);
    const { problem } = result as { problem: string };
    expect(problem).toContain(says);
    expect(problem).toMatch(/so nothing was opened.*Export it again, or choose another\.$/);
    expect(problem.length).toBeLessThan(220);
  });

  test('one that this program has kept opens all the same: nobody is kept from his own', () => {
    const [, text] = CONTRADICTORY[0] as [string, string, string];
    expect(readSheet(text, true)).toHaveProperty('sheet');
    // what isn't a sheet at all isn't one
    expect(readSheet(text.replace('"hitsUsed":50', '"hitsUsed":"50"'), true)).toHaveProperty('problem');
  });
});

describe('what this program writes is none', () => {
  test('pairs as they come out of a round, at whatever time the clock was set right', () => {
    const minutes = fc.integer({ min: -9, max: 600 });
    const cm = fc.double({ min: -30, max: 30, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(cm, minutes, fc.boolean(), fc.boolean()), { maxLength: 16 }), (drawn) => {
        const iso = (minute: number): string => new Date(Date.UTC(2026, 0, 2, 3, minute)).toISOString();
        const pairs = fourteen.pairs.map((pair, i): Pair => {
          const one = drawn[i];
          if (!one) return pair;
          const [move, minute, again, sure] = one;
          const first = { ...TAKEN, takenAt: iso(0), sure, ...(sure ? {} : { polarity: null, delayMs: null }) };
          const now = { ...farther(TAKEN, move), takenAt: iso(minute) };
          return accepted(pair, again ? outcomeOf(first, now) : outcomeOf(null, first), iso(again ? minute : 0));
        });
        const sheet: KitSheet = { ...fourteen, pairs };
        expect(readSheet(writeSheet(sheet, SAVED))).toEqual({ sheet });
      }),
    );
  });

  test('readings with sums at every delay, two alike ones too', () => {
    for (const size of [1, 0.999, -1]) {
      const before = curved(
        0.4,
        () => size,
        () => size,
        [0.4],
      );
      const sheet = { ...fourteen, pairs: [{ ...(fourteen.pairs[0] as Pair), before }] };
      expect(readSheet(writeSheet(sheet, SAVED))).toHaveProperty('sheet');
    }
  });

  test.each(['version1.json', 'version2.json', 'version3.json'])('%s of earlier versions', (name) => {
    const text = readFileSync(new URL(name, import.meta.url), 'utf8');
    expect(readSheet(text)).toHaveProperty('sheet');
  });

  test('the filled example', () => {
    const text = readFileSync(new URL('../../../samples/kit/example-kit.json', import.meta.url), 'utf8');
    expect(readSheet(text)).toHaveProperty('sheet');
  });
});
