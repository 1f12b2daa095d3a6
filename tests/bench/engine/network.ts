/** A whole kit as one network: fourteen microphones, every pair read, a tenth of the polarities and one delay wrong. */
import { performance } from 'node:perf_hooks';
import { Random } from '../../../samples/model/random';
import { type KitSheet, newMicrophone, newPair } from '../../../src/sheet/document/model';
import { kitChoice } from '../../../src/sheet/kit/kitChoice';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import type { SignedReading } from '../../../src/sheet/network/signs';
import { drawnRead } from '../../support/readings/drawnRead';
import { TAKEN } from '../../support/readings/taken';
import { table } from '../table';

const RUNS = 50;

export function networkTable(): string {
  const rows = [6, 10, 14].map((microphones) => {
    const times: number[] = [];
    for (let run = 0; run < RUNS; run++) {
      const random = new Random(run + 1, 'network');
      const readings = everyPair(microphones).map(({ a, b }, i) => ({
        a,
        b,
        sign: (random.uniform() < 0.1 ? -1 : 1) as SignedReading['sign'],
        weight: 0.5 + 0.5 * random.uniform(),
        delayMs: (b - a) * 0.3 + (i === 7 ? 2 : 0) + 0.01 * random.normal(),
        uncertaintyMs: 0.03,
      }));
      const sheet = sheetOf(microphones, readings, random);
      const started = performance.now();
      kitSystem(sheet);
      times.push(performance.now() - started);
    }
    times.sort((p, q) => p - q);
    const ms = (share: number): string => (times[Math.floor(share * (RUNS - 1))] as number).toFixed(1);
    return [microphones, (microphones * (microphones - 1)) / 2, ms(0.5), ms(0.95)];
  });
  const all = table(
    `All that the readings of one drum’s network say: contradictions, delays, switches, group, what next; ${RUNS} runs each`,
    ['microphones', 'pairs', 'median ms', '95 % ms'],
    rows,
  );
  return `${all}\n${choiceTable()}`;
}

/** Microphones up to 4 ms apart, each with its neighbour and a tenth of all others; of every pair the sum at any delay near the arrival. */
function choiceTable(): string {
  const rows = [8, 14, 16].map((microphones) => {
    const times: number[] = [];
    let pairs = 0;
    for (let run = 0; run < CHOICE_RUNS; run++) {
      const random = new Random(run + 1, 'choice');
      const sheet = delayedKit(microphones, random);
      pairs += sheet.pairs.length / CHOICE_RUNS;
      const started = performance.now();
      kitChoice(sheet);
      times.push(performance.now() - started);
    }
    times.sort((p, q) => p - q);
    const ms = (share: number): string => (times[Math.floor(share * (CHOICE_RUNS - 1))] as number).toFixed(0);
    return [microphones, pairs.toFixed(0), ms(0.5), ms(0.95)];
  });
  return table(
    `Switches and delays of a kit whose pairs contradict each other; ${CHOICE_RUNS} runs each`,
    ['microphones', 'pairs', 'median ms', '95 % ms'],
    rows,
  );
}

const CHOICE_RUNS = 20;

function delayedKit(count: number, random: Random): KitSheet {
  const at = Array.from({ length: count }, () => 4 * random.uniform());
  const two = everyPair(count).filter(({ a, b }) => b === a + 1 || random.uniform() < 0.1);
  const sheet = sheetOf(count, [], random);
  const pairs = two.map(({ a, b }, i) => {
    const arrivalMs = Math.round(100 * ((at[b] as number) - (at[a] as number))) / 100;
    const before = drawnRead(arrivalMs, random, 0.3).read;
    return { ...newPair(`p${i}`, `m${a}`, `m${b}`, 'other', 'snare'), acceptedAt: '2026-01-02T03:10:00Z', before };
  });
  return { ...sheet, pairs };
}

type Drawn = { a: number; b: number; sign: number; weight: number; delayMs: number; uncertaintyMs: number };

function sheetOf(count: number, readings: readonly Drawn[], random: Random): KitSheet {
  const microphones = Array.from({ length: count }, (_, i) => newMicrophone(`m${i}`, `M ${i}`, 'snare', 'top', `${i}`));
  const pairs = readings.map(({ a, b, sign, weight, delayMs, uncertaintyMs }, i) => ({
    ...newPair(`p${i}`, `m${a}`, `m${b}`, 'other', 'snare'),
    acceptedAt: '2026-01-02T03:10:00Z',
    before: {
      ...TAKEN,
      polarity: sign > 0 ? ('same' as const) : ('inverted' as const),
      agreement: weight,
      delayMs,
      uncertaintyMs,
      fuller: random.uniform() < 0.5 ? ('as-is' as const) : ('inverted' as const),
      fullerDb: 10 * random.uniform(),
      octaveCoherency: [0, 1, 2, 3].map(() => 2 * random.uniform() - 1),
    },
  }));
  const rest = { note: '', sampleRate: 48000, temperatureC: 20, references: [], follows: [], drumPlaces: [] };
  return { id: 'kit', name: 'Network', microphones, pairs, ...rest };
}

function everyPair(microphones: number): { a: number; b: number }[] {
  const all = Array.from({ length: microphones }, (_, i) => i);
  return all.flatMap((a) => all.slice(a + 1).map((b) => ({ a, b })));
}
