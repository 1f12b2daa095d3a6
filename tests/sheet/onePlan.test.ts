/** One plan a pair: what the meter recommends, the sheet, the kit, the hand-over, the spreadsheet and the stored file all say. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { advise } from '../../src/advice/advise';
import type { Alternative } from '../../src/advice/plan/alternatives';
import { NEAR_LAG_MS, PAIR_KIND_IDS, type PairKindId, pairKind } from '../../src/advice/plan/pairKinds';
import { Engine } from '../../src/dsp/engine';
import { readWav } from '../../src/files/readWav';
import { answerOf, type Reading } from '../../src/reading/reading';
import { changeMicrophone } from '../../src/sheet/document/edits';
import { readSheet, writeSheet } from '../../src/sheet/document/file';
import { type KitSheet, type Later, newMicrophone, newPair, type Taken } from '../../src/sheet/document/model';
import { kitSystem } from '../../src/sheet/kit/kitSystem';
import { accepted, outcomeOf } from '../../src/sheet/pair/outcome';
import { isPresent } from '../../src/sheet/pair/pairPlan';
import { actionOf } from '../../src/sheet/pair/planned';
import { takenFrom } from '../../src/sheet/pair/taken';
import { sheetCsv } from '../../src/sheet/print/csv';
import { handOver } from '../../src/sheet/print/handOver';
import { cmNumber } from '../../src/text/length';
import { figuresOf } from '../../src/ui/shared/figures';
import { parse } from '../support/readings/csvRows';
import { start } from '../support/readings/sheets';
import { bandPower } from '../support/sound/bandPower';
import { REAL_ABSENT, realPath, realRecordings, realRecordingsHere } from '../support/sound/realRecordings';

interface Sound {
  path: string;
  a: Float32Array;
  b: Float32Array;
  sampleRate: number;
}

const AT = '2026-05-09T13:02:00.000Z';
const kitFolder = new URL('../../samples/kit/', import.meta.url);
const scenes = (
  JSON.parse(readFileSync(new URL('kit.json', kitFolder), 'utf8')) as {
    scenes: { id: string; kind: PairKindId; file: string }[];
  }
).scenes;

function sound(path: string | URL): Sound {
  const wav = readWav(readFileSync(path));
  return { path: String(path), a: wav.read(0), b: wav.read(1), sampleRate: wav.sampleRate };
}

const kept = new Map<string, Reading>();

/** What the engine says of it in the end, heard so often, with the meter's own invert or not. */
function heard({ path, a, b, sampleRate }: Sound, maxLagMs: number, times: number, invert = false): Reading {
  const key = `${path} ${maxLagMs} ${invert}`;
  const before = kept.get(key);
  if (before) return before;
  const engine = new Engine(sampleRate, { maxLagMs });
  engine.setInvertB(invert);
  for (let i = 0; i < times; i++) engine.push(a, b);
  engine.flush();
  const reading = engine.reading();
  kept.set(key, reading);
  return reading;
}

interface Walk {
  kind: PairKindId;
  meterInvert?: boolean;
  turned?: boolean;
}

/** The reading as the sheet keeps it. */
const takenOf = (reading: Reading, { kind, meterInvert = false, turned = false }: Walk): Taken =>
  takenFrom(reading, {
    takenAt: AT,
    run: AT,
    initials: '',
    temperatureC: 20,
    kind,
    aInverted: false,
    bInverted: false,
    meterInvert,
    turned,
    shown: null,
  });

/** A kit of the two, the pair accepted as the round does: what can be done in the mix is put off to it. */
function sheetOf(taken: Taken, kind: PairKindId, sampleRate: number, isAccepted = true): KitSheet {
  const { plan } = taken;
  const later: Later | null =
    taken.sure && plan && !isPresent(plan) && plan.moveCm === null
      ? { invertB: plan.invertB, delayMs: plan.delayMs }
      : null;
  const pair = accepted(newPair('pair', 'one', 'two', kind, 'snare'), outcomeOf(null, taken, { later }), AT);
  return {
    ...start('two'),
    sampleRate,
    microphones: [newMicrophone('one', 'One', 'snare', 'top', '1'), newMicrophone('two', 'Two', '', 'above', '2')],
    pairs: [isAccepted ? pair : { ...pair, done: null, acceptedAt: null }],
    references: [{ drum: 'snare', microphone: 'one' }],
    follows: [],
  };
}

/** Figures with a sign, as printed: "+5.8 dB". */
const gainsIn = (text: string): string[] => text.match(/[+−±][\d.]+ dB/g) ?? [];

/** The row of the spreadsheet, by its heads. */
function csvRow(sheet: KitSheet): Record<string, string> {
  const [head, row] = parse(sheetCsv(sheet).slice(1));
  return Object.fromEntries((head ?? []).map((name, i) => [name, row?.[i] ?? '']));
}

/** All of the way, from the meter to the file and back. @returns what the pair gets in the mix; null: nothing is known */
function walk(reading: Reading, how: Walk): Alternative | null {
  const { kind, meterInvert = false, turned = false } = how;
  const advice = advise(reading, { kind, temperatureC: 20, invertB: meterInvert });
  const [best] = advice.plan;
  const taken = takenOf(reading, how);
  const sign = turned ? -1 : 1;
  const wanted = best && {
    ...actionOf(best),
    delayMs: best.delayMs === null ? null : sign * best.delayMs,
    moveCm: best.moveCm === null ? null : sign * best.moveCm,
  };
  // the sheet
  expect(taken.plan).toEqual(wanted ?? null);
  const open = handOver(sheetOf(taken, kind, reading.sampleRate, false)).pairs[0]?.line ?? '';
  if (!wanted) {
    expect(open).toMatch(/no recommendation/);
    return null;
  }
  const sheet = sheetOf(taken, kind, reading.sampleRate);
  // the kit: the same, or the best without the move that nobody made
  const { choice } = kitSystem(sheet);
  const [got] = choice?.pairs ?? [];
  if (!got || !choice) throw new Error('nothing is known of the pair');
  expect(got.gets).toEqual(got.own);
  const { gets } = got;
  if (wanted.moveCm === null) {
    expect(actionOf(gets)).toEqual(wanted);
    expect([gets.lowDb, gets.allDb]).toEqual([best.lowDb, best.allDb]);
  } else expect(gets.moveCm).toBeNull();
  expect(choice.invert).toEqual(gets.invertB ? ['two'] : []);
  const delayed = gets.delayMs === null ? [] : [[gets.delayMs > 0 ? 'one' : 'two', Math.abs(gets.delayMs)]];
  expect(choice.delays.map(({ microphone, delayMs }) => [microphone, delayMs])).toEqual(delayed);
  // the hand-over, before it was accepted and after
  for (const [text, one] of [
    [open, best && { ...best, ...wanted }],
    [handOver(sheet).pairs[0]?.line ?? '', gets],
  ] as const) {
    expect(text.includes('invert Two')).toBe(one.invertB);
    expect(text.match(/delay (One|Two) by/)?.[1] ?? null).toBe(
      one.delayMs === null ? null : one.delayMs > 0 ? 'One' : 'Two',
    );
    expect(text.includes('move Two')).toBe(one.moveCm !== null);
  }
  // the very figures that the meter prints, where it prints both
  if (!isPresent(wanted) && advice.text.includes('overall')) expect(gainsIn(open)).toEqual(gainsIn(advice.text));
  // one figure of the path: meter, options, hand-over
  if (taken.delayMs !== null) {
    const said =
      figuresOf(answerOf(reading), reading.sampleRate, 20, advice).path.match(/[\d.]+(?= cm)/)?.[0] ?? 'none';
    expect(handOver(sheet).pairs[0]?.path.match(/^[\d.]+/)?.[0] ?? 'none').toBe(said);
    for (const { moveCm } of advice.plan) if (moveCm !== null) expect(cmNumber(moveCm)).toBe(said);
  }
  // the spreadsheet
  const row = csvRow(sheet);
  const cell = (start: string): string => row[Object.keys(row).find((name) => name.startsWith(start)) ?? ''] ?? 'none';
  expect(cell('in the mix: invert A')).toBe('no');
  expect(cell('in the mix: invert B')).toBe(gets.invertB ? 'yes' : 'no');
  expect(Number(cell('in the mix: delay ms'))).toBeCloseTo(gets.delayMs ?? 0, 2);
  expect(Number(cell('in the mix: delay samples'))).toBeCloseTo(
    ((gets.delayMs ?? 0) / 1000) * reading.sampleRate,
    -0.5,
  );
  for (const [head, db] of [
    ['gain in the drum’s low octave', gets.lowDb],
    ['gain overall', gets.allDb],
  ] as const)
    expect(cell(head)).toBe(db === null ? '' : String(Number(db.toFixed(1))));
  // stored, and opened again
  const back = readSheet(writeSheet(sheet, AT));
  expect(back).toEqual({ sheet });
  // a switch pressed afterwards: another way to the same end, or to one as good
  const pressed = changeMicrophone(sheet, 'two', { inverted: true });
  const then = kitSystem(pressed).choice?.pairs[0]?.gets;
  if (pressed.pairs[0]?.done?.later)
    expect(then && actionOf(then)).toEqual({ ...actionOf(gets), invertB: !gets.invertB });
  return gets;
}

function walkAll(sounds: Sound, times: number): void {
  for (const maxLagMs of new Set(PAIR_KIND_IDS.map((id) => pairKind(id).maxLagMs))) {
    const reading = heard(sounds, maxLagMs, times);
    for (const kind of PAIR_KIND_IDS.filter((id) => pairKind(id).maxLagMs === maxLagMs)) {
      const plain = walk(reading, { kind });
      const swapped = walk(reading, { kind, turned: true });
      expect(swapped?.delayMs ?? null).toBe(plain?.delayMs == null ? null : -plain.delayMs);
    }
  }
  // the meter's own invert changes what is shown, and nothing of what is to be done
  const [plain, inverted] = [false, true].map((invert) => heard(sounds, NEAR_LAG_MS, times, invert)) as [
    Reading,
    Reading,
  ];
  for (const kind of PAIR_KIND_IDS.filter((id) => pairKind(id).maxLagMs === NEAR_LAG_MS)) {
    const [one, other] = [walk(plain, { kind }), walk(inverted, { kind, meterInvert: true })];
    expect(other && actionOf(other)).toEqual(one && actionOf(one));
  }
}

describe('from the meter to the file: one plan', () => {
  for (const { id, file } of scenes)
    test(`demo scene ${id}, as every kind of pair`, () => walkAll(sound(new URL(file, kitFolder)), 3));
});

describe.skipIf(!realRecordingsHere)(`real recordings${realRecordingsHere ? '' : ` (${REAL_ABSENT})`}`, () => {
  for (const { file } of realRecordingsHere ? realRecordings() : [])
    test(`${file}, as every kind of pair`, () => walkAll(sound(realPath(file)), 1), 60_000);
});

/** What is printed of the pair, as somebody at a desk carries it out: whole samples, one polarity button. */
function printed(line: string): { lateA: number; lateB: number; signB: number; low: number; all: number } {
  const [, late = '', samples = '0'] = line.match(/delay (One|Two) by [\d.]+ ms \((\d+) samples?\)/) ?? [];
  const [low = Number.NaN, all = Number.NaN] = gainsIn(line).map((text) => Number(text.slice(0, -3).replace('−', '-')));
  return {
    lateA: late === 'One' ? Number(samples) : 0,
    lateB: late === 'Two' ? Number(samples) : 0,
    signB: line.includes('invert Two') ? -1 : 1,
    low,
    all,
  };
}

/** By how much A+B gains by it in a band of the recording itself, levels made equal in it, dB. */
function gained({ a, b, sampleRate }: Sound, lowHz: number, highHz: number, line: string): number {
  const level = (x: Float32Array): number => Math.sqrt(bandPower(x, sampleRate, lowHz, highHz));
  const [gA, gB] = [1 / level(a), 1 / level(b)];
  const sum = (lateA: number, lateB: number, signB: number): Float32Array =>
    a.map((_, i) => gA * (a[i - lateA] ?? 0) + signB * gB * (b[i - lateB] ?? 0));
  const { lateA, lateB, signB } = printed(line);
  return 20 * Math.log10(level(sum(lateA, lateB, signB)) / level(sum(0, 0, 1)));
}

/** The reading leaves out what lies between the hits; the sum of all of it here doesn't. The largest difference: 0.33 dB, and it is told to half a dB. */
const TOLERANCE_DB = 0.6;

describe('the recording itself, summed as the hand-over says, gains what it says', () => {
  /** null: nothing is to be done */
  const check = (id: string): string | null => {
    const { file, kind } = scenes.find((one) => one.id === id) as (typeof scenes)[number];
    const it = sound(new URL(file, kitFolder));
    const taken = takenOf(heard(it, pairKind(kind).maxLagMs, 3), { kind });
    const line = handOver(sheetOf(taken, kind, it.sampleRate)).pairs[0]?.line ?? '';
    if (gainsIn(line).length === 0) return null;
    const { low, all } = printed(line);
    const [lowHz, highHz] = [taken.fullerLowHz as number, taken.fullerHighHz as number];
    expect(Math.min(low, all)).toBeGreaterThanOrEqual(0);
    for (const [says, is] of [
      [low, gained(it, lowHz, highHz, line)],
      [all, gained(it, 30, 10_000, line)],
    ] as const) {
      expect(is).toBeGreaterThanOrEqual(0);
      expect(Math.abs(is - says)).toBeLessThan(TOLERANCE_DB);
    }
    return line;
  };

  test('snare top and overhead, where sum and arrival disagree: the delay and the polarity that goes with it', () => {
    expect(check('snare-overhead')).toMatch(/delay One by .* leave both polarities: \+\d/);
  });

  test('every other scene where something is to be done', () => {
    const done = scenes.filter(({ id }) => check(id) !== null).map(({ id }) => id);
    expect(done).toEqual(expect.arrayContaining(['snare-top-bottom', 'kick-both-sides', 'floor-tom-overhead']));
  });
});
