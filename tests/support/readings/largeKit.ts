/** Kits with as many readings as one page may hold, each with all that a reading keeps: for the bench, and for opening one. */
import { Random } from '../../../samples/model/random';
import {
  type KitSheet,
  newMicrophone,
  newPair,
  type Pair,
  SUM_PICTURE_HZ,
  type Taken,
} from '../../../src/sheet/document/model';
import { drawnRead } from './drawnRead';

export interface LargeKit {
  microphones: number;
  /** each with its own drum name; every drum has its share of the pairs */
  drums: number;
  /** readings of pairs in all */
  readings: number;
  /** every pair was read before and after */
  twice?: boolean;
}

/** Microphones up to 4 ms apart; a pair's sum is a cosine round its arrival, and one pair in five has it the other way round. */
export function largeKit({ microphones, drums, readings, twice = false }: LargeKit): KitSheet {
  const random = new Random(1, 'large');
  const names = Array.from({ length: drums }, (_, d) => `drum ${d + 1}`);
  const count = Math.round(readings / (twice ? 2 : 1) / drums);
  const pairs = names.flatMap((drum, d): Pair[] => {
    const at = Array.from({ length: microphones }, () => 4 * random.uniform());
    return everyPair(microphones)
      .slice(0, count)
      .map(({ a, b }, i): Pair => {
        const reading = (): Taken =>
          takenOf(Math.round(100 * ((at[b] as number) - (at[a] as number))) / 100, random, i);
        const pair = newPair(`p${d}-${i}`, `m${a}`, `m${b}`, 'other', drum);
        return { ...pair, before: reading(), after: twice ? reading() : null, acceptedAt: '2026-01-02T03:10:00Z' };
      });
  });
  return {
    id: 'large-kit',
    name: 'Large',
    note: '',
    sampleRate: 48000,
    temperatureC: 20,
    microphones: Array.from({ length: microphones }, (_, i) =>
      newMicrophone(`m${i}`, `Mic ${i + 1}`, '', 'top', `${i + 1}`),
    ),
    pairs,
    references: names.map((drum) => ({ drum, microphone: 'm0' })),
    follows: [],
    drumPlaces: [],
  };
}

function takenOf(arrivalMs: number, random: Random, i: number): Taken {
  const { inverted, read } = drawnRead(arrivalMs, random, 0.2);
  const sumDb = SUM_PICTURE_HZ.map(() => Math.round(100 * random.uniform()) / 10 - 4);
  return { ...read, polarity: inverted ? 'inverted' : 'same', run: `run ${i}`, sumDb };
}

function everyPair(microphones: number): { a: number; b: number }[] {
  const all = Array.from({ length: microphones }, (_, i) => i);
  // neighbours first, so that what is cut off at the end leaves none without a pair
  return all.flatMap((a) => all.slice(a + 1).map((b) => ({ a, b }))).sort((p, q) => p.b - p.a - (q.b - q.a));
}
