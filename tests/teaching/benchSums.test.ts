/** How the bench's numbers come about, against what the bench shows and closed forms (Everest & Pohlmann, ch. 10; 3:1 by the 1/r law: shared check values). */
import { expect, it } from 'vitest';
import { startBench } from '../../src/teaching/bench/edits';
import { figuresOf, firstNotchHz } from '../../src/teaching/bench/figures';
import type { Bench } from '../../src/teaching/bench/model';
import { benchSums } from '../../src/teaching/words/benchSums';
import { figureRow } from '../../src/teaching/words/benchWords';

const benches: Bench[] = (['snare', 'kick', 'kit'] as const).flatMap((drum) => {
  const bench = startBench(drum);
  return [
    bench,
    { ...bench, levels: 'distance' as const },
    { ...bench, b: { ...bench.b, inverted: !bench.b.inverted, mixDelayMs: 0.5 } },
  ];
});

it('there is one for each figure of the row, and it comes to what the bench has', () => {
  for (const bench of benches) {
    const figures = figuresOf(bench);
    const sums = benchSums(bench, figures);
    expect(sums.map(({ id }) => id)).toEqual(figureRow(figures, bench.levels).map(({ id }) => id));
    const of = (id: string) => sums.find((one) => one.id === id);
    expect(of('path')?.result).toBe(figures.pathCm);
    expect(of('delay')?.result).toBe(figures.delayMs);
    expect(of('notch')?.result).toBe(firstNotchHz(figures));
    expect(of('polarity')?.result).toBe(figures.polarity === 'same' ? 1 : -1);
    for (const { worked, inputs } of sums) expect(JSON.stringify([worked, inputs])).not.toMatch(/NaN|undefined/);
  }
});

it('1 ms: 500 Hz; three to one: −9.5 dB, +2.5 and −3.5 dB', () => {
  const [bench] = benches as [Bench];
  const figures = { ...figuresOf(bench), delayMs: 1, polarity: 'same' as const, notchesHz: [500, 1500] };
  const notch = benchSums(bench, figures).find(({ id }) => id === 'notch');
  expect(notch?.worked).toBe('1 ÷ (2 · 1.000 ms) = 500 Hz');
  const three = { ...figures, ratio: 3, levelDifferenceDb: -9.542, peakDb: 2.4988, notchDb: -3.5218 };
  const level = benchSums({ ...bench, levels: 'distance' }, three).find(({ id }) => id === 'level');
  expect(level?.worked).toBe('L = −9.5 dB\npeak +2.5 dB\nnotch −3.5 dB');
});
