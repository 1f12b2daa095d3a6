/** How a sheet's numbers come about: inputs put in the formula give what the sheet shows. */
import { describe, expect, test } from 'vitest';
import { type KitSheet, lastTaken, newPair, type Pair, type Taken } from '../../../src/sheet/document/model';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { leftOf } from '../../../src/sheet/kit/pairLine';
import { recheck } from '../../../src/sheet/pair/recheck';
import { allTogether } from '../../../src/sheet/print/allTogether';
import { doneAndLeft } from '../../../src/sheet/print/handOverChanges';
import { doubtsOf } from '../../../src/sheet/print/handOverDoubts';
import { groupLines } from '../../../src/sheet/print/handOverMix';
import { firstSumOf, sheetSums } from '../../../src/sheet/sums/sheetSums';
import { sumIdOf } from '../../../src/sheet/sums/sumPlace';
import { recheckedText, takenText } from '../../../src/state/round/roundWords';
import { samplesText, wholeSamples } from '../../../src/text/count';
import { furtherText, spanText } from '../../../src/text/length';
import { dbText, gainText } from '../../../src/text/level';
import type { Sum, SumLine } from '../../../src/text/sum';
import { fixedMs, msText } from '../../../src/text/time';
import { exampleKit } from '../../support/readings/fourteenMics';
import { read, taken } from '../../support/readings/kits';
import { start, withPairs } from '../../support/readings/sheets';
import { curved, farther, planned, TAKEN, timing, UNPLANNED } from '../../support/readings/taken';
import { holdsUp } from '../../support/rules/evaluate';

const NOW = new Date('2026-01-02T16:00:00Z');

const sumsOf = (sheet: KitSheet, id: string): Sum[] => sheetSums(sheet, kitSystem(sheet), id, NOW)?.sums ?? [];
const ofPair = (sheet: KitSheet, pair: Pair): Map<string, Sum> => {
  const id = sumIdOf({ kind: 'pair', of: pair.id, number: 'path' });
  const own = sumsOf(sheet, id).filter((one) => one.id.startsWith('["pair"'));
  return new Map(own.map((one) => [JSON.parse(one.id)[2] as string, one]));
};

/** by its own coherency */
const TRUE: Taken = { ...TAKEN, fullerDb: 10 * Math.log10(1.7 / 0.3) };
/** Fullest with that delay, at 150 and 240 Hz. */
const swung = (arrivalMs: number, bestMs: number): Taken => {
  const wave = (share: number, perMs: number) => (ms: number) => share * Math.cos(2 * Math.PI * perMs * (ms - bestMs));
  return {
    ...TRUE,
    ...curved(arrivalMs, wave(0.9, 0.15), wave(0.6, 0.24), [arrivalMs, bestMs]),
    fullerDb: TRUE.fullerDb,
  };
};

/** As the sheet keeps a move and a switch that was pressed, with one that was decided on and one that was left. */
const kits: [string, KitSheet][] = [
  ['the example kit', exampleKit()],
  [
    'delays, switches and moves',
    withPairs(start('four'), {
      'snareTop-overheadLeft': { before: swung(2.76, 2.76) },
      // fuller a little beside the arrival
      'snareTop-overheadRight': { before: swung(3.6, 3.1) },
      'kickOut-overheadLeft': {
        before: TRUE,
        after: farther({ ...TRUE, bInverted: true }, -2.5),
        done: { inverted: 'b', movedCm: 2.5, later: null, leftOnPurpose: false, note: '' },
      },
    }),
  ],
];

describe.each(kits)('%s', (_, sheet) => {
  const { choice } = kitSystem(sheet);
  const pairs = sheet.pairs.filter((pair) => lastTaken(pair) !== null);

  test('a pair’s figures come to what its row says', () => {
    const seen = new Set<string>();
    for (const pair of pairs) {
      const sums = ofPair(sheet, pair);
      const reading = lastTaken(pair) as Taken;
      const row = `${takenText(reading)}. ${doneAndLeft(sheet, choice, pair).join('. ')}`;
      const left = leftOf(sheet, choice, pair);
      for (const [number, sum] of sums) {
        expect(holdsUp(sum), sum.name).not.toEqual([]);
        expect(sum.worked, sum.name).not.toMatch(/NaN|null|undefined/);
        seen.add(number);
      }
      const result = (number: string): number => sums.get(number)?.result as number;
      if (reading.sure && reading.delayMs !== null) {
        expect(result('delay')).toBeCloseTo(reading.delayMs, 9);
        // shown to half a centimetre, or to a whole one
        const shown = Number(row.match(/[AB] ([\d.]+) cm further/)?.[1] ?? 0);
        expect(Math.abs(shown - Math.abs(result('path')))).toBeLessThanOrEqual(0.5);
        if (reading.spreadMs !== null) expect(row).toContain(`±${spanText(result('spread') / 10)}`);
        if (reading.uncertaintyMs !== null) expect(row).toContain(`±${spanText(result('accuracy'))} (90 %)`);
      }
      if (sums.has('fuller')) expect(row).toContain(`by ${dbText(result('fuller'))}`);
      if (sums.has('fuller')) expect(result('fuller')).toBeCloseTo(reading.fullerDb as number, 1);
      for (const number of ['low-octave', 'overall'])
        if (sums.has(number)) expect(row).toContain(gainText(result(number)));
      if (sums.has('low-octave')) expect(result('low-octave')).toBeCloseTo(left?.action.lowDb as number, 9);
      if (sums.has('mix-delay')) {
        expect(row).toContain(
          `by ${msText(result('mix-delay'))} (${samplesText(wholeSamples(result('mix-delay'), sheet.sampleRate))})`,
        );
        expect(sums.get('mix-delay')?.worked).toContain(
          samplesText(wholeSamples(result('mix-delay'), sheet.sampleRate)),
        );
      }
    }
    for (const number of ['delay', 'path', 'accuracy', 'spread', 'fuller', 'low-octave', 'overall', 'mix-delay'])
      expect([...seen], number).toContain(number);
  });

  test('each mic’s delay in the mix is the one that all pairs together get', () => {
    expect(choice.delays.length).toBeGreaterThan(0);
    for (const { microphone, delayMs } of choice.delays) {
      const [sum] = sumsOf(sheet, sumIdOf({ kind: 'mic', of: microphone, number: 'mix-delay' })) as [Sum];
      expect(holdsUp(sum)).toContain('n');
      expect(sum.result).toBe(delayMs);
      expect(allTogether(sheet, choice).join(' ')).toContain(`by ${msText(sum.result as number)}`);
    }
  });
});

describe('what readings say of each other', () => {
  const snare = {
    'overheadLeft-overheadRight': taken('same', 0.1),
    'snareTop-overheadLeft': taken('same', 3),
    'snareTop-overheadRight': taken('same', 3.4, null, { uncertaintyMs: 0.04 }),
  };
  const sheet = read(start('four'), snare);
  const of = (at: KitSheet): Sum[] => sumsOf(at, sumIdOf({ kind: 'drum', of: 'snare', number: '' }));

  test('three that don’t close: their delays round the triangle, and what they may be off by', () => {
    const [sum] = of(sheet) as [Sum];
    expect(holdsUp(sum)).toEqual(['e', 'u']);
    expect(Math.abs(sum.result as number)).toBeCloseTo(0.3, 9);
    expect(doubtsOf(sheet, kitSystem(sheet).drums).join(' ')).toContain(`off by ${fixedMs(0.3, 2)}`);
    // and with each of its pairs
    for (const id of Object.keys(snare))
      expect(sumsOf(sheet, sumIdOf({ kind: 'pair', of: id, number: 'path' })).map((one) => one.id)).toContain(sum.id);
  });

  test('each mic’s delay against the reference, with its 90 %, from all readings', () => {
    const closing = read(start('four'), { ...snare, 'snareTop-overheadRight': taken('same', 3.11) });
    const told = new Map(
      kitSystem(closing)
        .drums.find(({ drum }) => drum === 'snare')
        ?.delays.map((one) => [one.microphone, one]),
    );
    const sums = of(closing);
    expect(sums).toHaveLength(2);
    for (const sum of sums) {
      expect(holdsUp(sum)).toEqual(['t', 'u']);
      const one = told.get(JSON.parse(sum.id)[2]);
      expect(sum.result).toBe(one?.delayMs);
      expect(sum.worked).toContain(`±${one?.uncertaintyMs?.toFixed(3)} ms`);
    }
  });
});

test('several mics on one drum: what the kit’s switches give, and what others could', () => {
  const kit = start('eleven');
  const third = newPair('third', 'kickIn', 'kickDriver', 'low-end-driver', 'kick');
  const of = (re: number, asks: boolean): Taken => ({
    ...taken(null, null),
    lowCoherency: re,
    octaveCoherency: [null, re, null, null],
    fullerLowHz: 88.4,
    fullerHighHz: 176.8,
    ...(asks ? planned(timing(re, re)) : UNPLANNED),
  });
  for (const asks of [true, false]) {
    const sheet = withPairs(
      { ...kit, pairs: [...kit.pairs, third] },
      {
        'kickIn-kickOut': { before: of(0.8, asks) },
        'kickOut-kickDriver': { before: of(-0.5, asks) },
        third: { before: of(-0.6, asks) },
      },
    );
    const system = kitSystem(sheet);
    const [line] = groupLines(system) as [SumLine];
    const sum = sumsOf(sheet, line.sums[0]?.id ?? '').find(({ id }) => id === line.sums[0]?.id) as Sum;
    expect(holdsUp(sum)).toEqual(['P', 'Q', 'gain']);
    // by hand: 3 + 2·(0.8 + 0.5 + 0.6) over 3 + 2·(0.8 − 0.5 − 0.6)
    expect(sum.result).toBeCloseTo(10 * Math.log10(6.8 / 2.4), 9);
    expect(line.text).toContain(gainText(sum.result as number));
  }
});

test('a recheck and a move: the two paths, taken from each other', () => {
  const id = 'snareTop-snareBottom';
  const four = start('fourteen');
  for (const cm of [2.4, -12]) {
    const found = recheck(TAKEN, farther(TAKEN, cm));
    const checked = {
      checkedAt: '2026-01-02T09:00:00Z',
      change: found.change,
      fartherCm: found.fartherCm,
      pathsCm: found.pathsCm as [number, number],
    };
    const sheet = withPairs(four, { [id]: { before: TAKEN, checked } });
    const pair = sheet.pairs.find((one) => one.id === id) as Pair;
    const sum = ofPair(sheet, pair).get('recheck') as Sum;
    expect(holdsUp(sum)).toEqual(['d']);
    expect(recheckedText(sheet, pair, checked, NOW)).toContain(furtherText(sum.result as number));
    // one that was noted before its paths were kept says so, and makes none up
    const { pathsCm, ...old } = checked;
    const before = ofPair(sheet, { ...pair, checked: old });
    expect(before.get('recheck')?.worked).toBe(sum.worked);
    const kept = withPairs(four, { [id]: { before: TAKEN, checked: old } });
    const bare = ofPair(kept, kept.pairs.find((one) => one.id === id) as Pair).get('recheck') as Sum;
    expect(bare.inputs.map(({ value }) => value)).toEqual(['–', '–']);
    expect(bare.result).toBe(sum.result);
    expect(pathsCm).toBeDefined();
  }
});

test('what wasn’t read has no numbers, and nothing to press', () => {
  const sheet = start('four');
  for (const pair of sheet.pairs) {
    expect(ofPair(sheet, pair).size).toBe(0);
    expect(firstSumOf(sheet, kitSystem(sheet), pair)).toBeNull();
  }
  expect(sheetSums(sheet, kitSystem(sheet), 'path', NOW)).toBeNull();
});
