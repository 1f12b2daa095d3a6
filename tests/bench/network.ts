/** A whole kit as one network: fourteen microphones, every pair read, a tenth of the polarities and one delay wrong. */
import { performance } from 'node:perf_hooks';
import { Random } from '../../samples/model/random';
import { findContradictions } from '../../src/sheet/contradictions';
import { solveDelays } from '../../src/sheet/delays';
import type { SignedReading } from '../../src/sheet/signs';
import { table } from './table';

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
      const started = performance.now();
      findContradictions(microphones, readings);
      solveDelays(microphones, readings, 0);
      times.push(performance.now() - started);
    }
    times.sort((p, q) => p - q);
    const ms = (share: number): string => (times[Math.floor(share * (RUNS - 1))] as number).toFixed(1);
    return [microphones, (microphones * (microphones - 1)) / 2, ms(0.5), ms(0.95)];
  });
  return table(
    `Contradictions and delays of one drum’s network, ${RUNS} runs each`,
    ['microphones', 'pairs', 'median ms', '95 % ms'],
    rows,
  );
}

function everyPair(microphones: number): { a: number; b: number }[] {
  const all = Array.from({ length: microphones }, (_, i) => i);
  return all.flatMap((a) => all.slice(a + 1).map((b) => ({ a, b })));
}
