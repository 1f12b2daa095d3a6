import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { PAIR_KIND_IDS } from '../../../src/advice/plan/pairKinds';
import { NEAR_POINTS } from '../../../src/reading/bands';
import { MOST_FILE_BYTES, MOST_PAIRS, readSheet, writeSheet } from '../../../src/sheet/document/file';
import { type KitSheet, type Pair, SUM_PICTURE_HZ, type Taken } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { BROKEN, changed, first, fourteen, MARKUP, SAVED } from '../../support/readings/brokenSheets';
import { DONE } from '../../support/readings/sheets';
import { TAKEN, timing } from '../../support/readings/taken';

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
  const part = fc.integer({ min: 0, max: 1000 }).map((x) => x / 1000);
  const place = fc.record({ x: part, y: part });
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
    place: fc.option(place),
  });
  fc.assert(
    fc.property(
      fc.array(microphone, { minLength: 2, maxLength: 14 }),
      fc.array(fc.tuple(fc.nat(), fc.nat(), fc.constantFrom(...PAIR_KIND_IDS), text, fc.boolean()), { maxLength: 20 }),
      text,
      fc.option(place),
      (microphones, pairs, name, put) => {
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
          drumPlaces: put ? [{ drum: '__proto__', place: put }] : [],
        };
        expect(readSheet(writeSheet(sheet, SAVED))).toEqual({ sheet });
      },
    ),
  );
});

const stored = (version: number): string => readFileSync(new URL(`version${version}.json`, import.meta.url), 'utf8');
const read = (text: string): KitSheet => (readSheet(text) as { sheet: KitSheet }).sheet;

test('the largest sheet there can be, read before and after throughout, is no larger than can be opened again', () => {
  const odd = 1 / 3;
  const timings = [null, 1 + odd, 2 + odd, 3 + odd, 4 + odd].map((delayMs) => ({
    ...timing(odd, -odd, { delayMs }),
    asIs: { lowDb: -odd, allDb: -odd, bandsDb: [-odd, -odd, -odd, -odd] },
  }));
  const curve = Array.from({ length: NEAR_POINTS }, () => -0.123);
  const full: Taken = {
    ...TAKEN,
    timings,
    sumByDelay: { fromMs: -odd, stepMs: odd, low: curve, all: curve },
    sumDb: SUM_PICTURE_HZ.map(() => -12.3),
    delayMs: odd,
    uncertaintyMs: odd,
  };
  const one = fourteen.pairs[0] as Pair;
  const pairs = Array.from({ length: MOST_PAIRS }, (_, i): Pair => {
    const done = { ...DONE, note: 'n'.repeat(200) };
    return { ...one, id: `pair-${i}`, before: full, after: full, done, acceptedAt: SAVED };
  });
  const text = writeSheet({ ...fourteen, pairs }, SAVED);
  expect(text.length).toBeLessThan(MOST_FILE_BYTES);
  expect(readSheet(text)).not.toHaveProperty('problem');
});

describe('a file of an earlier version is brought up', () => {
  test('version 1: what it didn’t keep isn’t known', () => {
    const old = JSON.parse(stored(1));
    expect(old.version).toBe(1);
    const sheet = read(stored(1));
    const { pairs, microphones, ...rest } = old.kit;
    expect(sheet).toMatchObject(rest);
    expect(sheet.microphones.map(({ contour }) => contour)).toEqual(microphones.map(() => ''));
    expect(sheet.pairs.map(({ checked }) => checked)).toEqual(pairs.map(() => null));
    const { take, ...before } = pairs[0].before;
    expect(sheet.pairs[0]?.before).toEqual({
      ...before,
      run: take,
      octaveCoherency: [null, null, null, null],
      sumDb: null,
      // by hand, from its coherency: 10·lg(1 ± Re γ)
      timings: [
        {
          delayMs: null,
          moveCm: null,
          asIs: { lowDb: dB(1 + before.lowCoherency), allDb: null, bandsDb: [null, null, null, null] },
          inverted: { lowDb: dB(1 - before.lowCoherency), allDb: null, bandsDb: [null, null, null, null] },
        },
      ],
      plan: null,
      sumByDelay: null,
    });
    const { delayLaterMs, ...done } = pairs[0].done;
    expect([done.inverted, sheet.pairs[0]?.done]).toEqual([
      true,
      { ...done, inverted: 'b', later: delayLaterMs === null ? null : { invertB: false, delayMs: -delayLaterMs } },
    ]);
    // and from then on it is a sheet like any other
    expect(readSheet(writeSheet(sheet, SAVED))).toEqual({ sheet });
  });

  test('version 2: contour and run by their names, the delay with A positive, one timing, no plan', () => {
    const old = JSON.parse(stored(2));
    expect(old.version).toBe(2);
    const sheet = read(stored(2));
    for (const [i, pair] of old.kit.pairs.entries()) {
      const taken = sheet.pairs[i]?.before;
      expect([taken?.run, taken?.plan]).toEqual([pair.before.take, null]);
      const re = pair.before.lowCoherency;
      expect(taken?.timings.map(({ asIs }) => asIs.lowDb)).toEqual(re === null ? [] : [dB(1 + re)]);
      expect(sheet.pairs[i]?.done?.later ?? null).toEqual(
        pair.done?.delayLaterMs ? { invertB: false, delayMs: -pair.done.delayLaterMs } : null,
      );
      expect(Object.keys(sheet.pairs[i]?.done ?? {})).not.toContain('delayLaterMs');
    }
    // in the example the snare's top was to be delayed: A
    expect(sheet.pairs.find(({ id }) => id === 'snare-overhead')?.done?.later?.delayMs).toBeCloseTo(2.76, 9);
    expect(readSheet(writeSheet(sheet, SAVED))).toEqual({ sheet });
  });

  test('version 2: the polarity of the arrival goes with its delay; without a coherency there is no timing', () => {
    const old = JSON.parse(stored(2));
    const pair = old.kit.pairs.find(({ id }: { id: string }) => id === 'snare-overhead');
    pair.before.polarity = 'inverted';
    pair.before.lowCoherency = null;
    old.kit.microphones[0].voicing = 'scooped';
    const sheet = read(JSON.stringify(old));
    const brought = sheet.pairs.find(({ id }) => id === 'snare-overhead');
    expect(brought?.done?.later).toEqual({ invertB: true, delayMs: 2.76 });
    expect(brought?.before?.timings).toEqual([]);
    expect(sheet.microphones[0]?.contour).toBe('scooped');
    // one that the arrival isn't sure of tells nothing of it
    pair.before.sure = false;
    expect(read(JSON.stringify(old)).pairs.find(({ id }) => id === 'snare-overhead')?.done?.later?.invertB).toBe(false);
  });

  test('version 3: all as it was; of delays that weren’t offered nothing is known', () => {
    const old = JSON.parse(stored(3));
    expect(old.version).toBe(3);
    const sheet = read(stored(3));
    const without = (one: Taken | null) => {
      if (one === null) return null;
      const { sumByDelay, ...rest } = one;
      expect(sumByDelay).toBeNull();
      return rest;
    };
    const pairs = sheet.pairs.map((one) => ({ ...one, before: without(one.before), after: without(one.after) }));
    expect(withoutPlaces({ ...sheet, pairs })).toEqual(old.kit);
    expect(pairs.filter(({ after }) => after !== null).length).toBeGreaterThan(0);
    expect(readSheet(writeSheet(sheet, SAVED))).toEqual({ sheet });
  });

  test('version 4: all as it was, and everything stands where it usually does', () => {
    const old = JSON.parse(stored(4));
    expect(old.version).toBe(4);
    const sheet = read(stored(4));
    expect(sheet.microphones.map(({ place }) => place)).toEqual(old.kit.microphones.map(() => null));
    expect(sheet.drumPlaces).toEqual([]);
    expect(withoutPlaces(sheet)).toEqual(old.kit);
    expect(readSheet(writeSheet(sheet, SAVED))).toEqual({ sheet });
  });

  test('the curve is kept to the figure, each list on one line; a text that looks like a list stays as it is', () => {
    const curve = Array.from({ length: NEAR_POINTS }, (_, i) => (i - 60) / 61);
    const sumByDelay = { fromMs: -1.25, stepMs: 1 / 48, low: curve.map((x) => Math.round(1000 * x) / 1000), all: null };
    const one = fourteen.pairs[0] as Pair;
    const note = '[\n 1,\n 2\n]';
    const sheet = { ...fourteen, note, pairs: [{ ...one, before: { ...TAKEN, sumByDelay } }] };
    const text = writeSheet(sheet, SAVED);
    expect(text.split('\n').some((line) => line.trim().startsWith('"low": [-0.984,-0.967,'))).toBe(true);
    expect(readSheet(text)).toEqual({ sheet });
    // two lists of 121: at most 2 kB a reading
    const both = writeSheet(
      { ...sheet, pairs: [{ ...one, before: { ...TAKEN, sumByDelay: { ...sumByDelay, all: sumByDelay.low } } }] },
      SAVED,
    );
    const none = writeSheet({ ...sheet, pairs: [{ ...one, before: TAKEN }] }, SAVED);
    expect(both.length - none.length).toBeLessThan(2000);
  });

  test('fields of another version are refused, not dropped', () => {
    const old = JSON.parse(stored(2));
    for (const version of [3, 4]) expect(readSheet(JSON.stringify({ ...old, version }))).toHaveProperty('problem');
    const now = JSON.parse(writeSheet(fourteen, SAVED));
    expect(now.version).toBe(7);
    const before = { ...now, kit: { ...now.kit, pairs: [{ ...now.kit.pairs[0], before: TAKEN }] } };
    expect(readSheet(JSON.stringify(before))).not.toHaveProperty('problem');
    for (const version of [2, 3, 4])
      expect(readSheet(JSON.stringify({ ...before, version }))).toHaveProperty('problem');
    for (const version of [3, 4])
      expect(readSheet(JSON.stringify({ ...JSON.parse(stored(version)), version: version + 1 }))).toHaveProperty(
        'problem',
      );
  });

  test('version 6: all as it was; what a reading was read from is of version 7', () => {
    const [first, ...others] = fourteen.pairs;
    const as = (version: number, before: Taken): string =>
      JSON.stringify({
        ...JSON.parse(writeSheet({ ...fourteen, pairs: [{ ...(first as Pair), before }, ...others] }, SAVED)),
        version,
      });
    expect(readSheet(as(6, TAKEN))).not.toHaveProperty('problem');
    expect(readSheet(as(6, { ...TAKEN, source: 'take 1.wav' }))).toHaveProperty('problem');
    const read = readSheet(as(7, { ...TAKEN, source: 'take 1.wav' }));
    expect('sheet' in read && read.sheet.pairs[0]?.before?.source).toBe('take 1.wav');
  });

  test('version 5: all as it was; tracks are of version 6', () => {
    const [first, ...others] = fourteen.pairs;
    const pairs = [{ ...(first as Pair), before: TAKEN }, ...others];
    const as = (version: number, sheet: KitSheet): string =>
      JSON.stringify({ ...JSON.parse(writeSheet(sheet, SAVED)), version });
    expect(readSheet(as(5, { ...fourteen, pairs }))).toEqual({ sheet: { ...fourteen, pairs } });
    const read: Pair = { ...(first as Pair), before: { ...TAKEN, files: ['01 Kick.wav', '03 OH.wav'] } };
    const taken = { ...fourteen, pairs: [read, ...others] };
    expect(readSheet(as(6, taken))).toEqual({ sheet: taken });
    expect(readSheet(as(5, taken))).toHaveProperty('problem');
  });

  test('version 6: all as it was; the two paths of a recheck are of version 7', () => {
    const [first, ...others] = fourteen.pairs;
    const at = '2026-01-02T03:20:00Z';
    const accepted = { ...(first as Pair), before: TAKEN, acceptedAt: at };
    const as = (version: number, checked: Pair['checked']): [text: string, sheet: KitSheet] => {
      const sheet = { ...fourteen, pairs: [{ ...accepted, checked }, ...others] };
      return [JSON.stringify({ ...JSON.parse(writeSheet(sheet, SAVED)), version }), sheet];
    };
    const [six, old] = as(6, { checkedAt: at, change: 'moved', fartherCm: 2.4 });
    expect(readSheet(six)).toEqual({ sheet: old });
    const checked: Pair['checked'] = { checkedAt: at, change: 'moved', fartherCm: 2.4, pathsCm: [3.4, 5.8] };
    const [seven, now] = as(7, checked);
    expect(readSheet(seven)).toEqual({ sheet: now });
    expect(readSheet(as(6, checked)[0])).toHaveProperty('problem');
  });
});

/** Before version 5 nothing was drawn. */
function withoutPlaces({
  drumPlaces: _drums,
  microphones,
  ...sheet
}: Omit<KitSheet, 'pairs'> & { pairs: unknown }): object {
  return { ...sheet, microphones: microphones.map(({ place: _place, ...one }) => one) };
}

/** 10·lg of a power ratio */
const dB = (ratio: number): number => 10 * Math.log10(ratio);

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
