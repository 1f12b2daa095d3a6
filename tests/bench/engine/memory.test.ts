import { expect, test } from 'vitest';
import { driftPercent, measureEngineMemory } from './memory';

test('three minutes of audio and readings leave the engine’s memory where it was', { timeout: 60_000 }, () => {
  const engine = measureEngineMemory([1, 3]);
  expect(driftPercent(engine.map(({ megabytes }) => megabytes))).toBeLessThan(5);
  expect(engine[1]?.hits).toBeGreaterThan((engine[0]?.hits ?? 0) + 100);
});

test('drift is the largest distance from the first value', () => {
  expect(driftPercent([10, 10.2, 9.5])).toBeCloseTo(5, 9);
});
