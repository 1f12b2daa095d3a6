/** The fast part of the case bench: a round of quoted seeds, and the peers, which must have had a fair run. */
import { describe, expect, it, vi } from 'vitest';
import { pairKind } from '../../../src/advice/plan/pairKinds';
import { QUOTED_SEEDS, TUNING_SEEDS } from '../../cases/case';
import { drawCase, groupOf, TURN_LENGTH } from '../../cases/drawCase';
import { Judge } from '../../cases/judge';
import { renderCase } from '../../cases/renderCase';
import { REAL_ABSENT, realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';
import { pairOfHits } from '../../support/sound/simpleKit';
import { OURS, runCaseJob } from './caseJob';
import { QUOTED_CASES } from './caseTables';
import { readOurs } from './ours';
import { PEERS, readPeers } from './peers';
import { type Score, scoreOurs } from './score';

// a case takes a second; a busy machine may take several
vi.setConfig({ testTimeout: 120_000 });

function read(seed: number): { noAnswer: string | null; score: Score; state: string } {
  const made = drawCase(seed);
  const { a, b, sampleRate } = renderCase(made);
  const outcome = readOurs(a, b, sampleRate, { maxLagMs: pairKind(made.kind).maxLagMs });
  return { noAnswer: made.noAnswer, score: scoreOurs(outcome, new Judge(made)), state: outcome.state };
}

const round = Array.from({ length: TURN_LENGTH }, (_, i) => QUOTED_SEEDS.from + i);

describe('seeds', () => {
  it('that are quoted and those for tuning never meet', () => {
    expect(TUNING_SEEDS.to).toBeLessThan(QUOTED_SEEDS.from);
    expect(TUNING_SEEDS.from).toBeLessThan(TUNING_SEEDS.to);
    expect(QUOTED_SEEDS.from + QUOTED_CASES - 1).toBeLessThanOrEqual(QUOTED_SEEDS.to);
    expect(QUOTED_CASES).toBeGreaterThanOrEqual(1500);
  });

  it('that are quoted hold all groups in the shares of one round, 150 grooves at least', () => {
    expect(QUOTED_CASES % TURN_LENGTH).toBe(0);
    const seeds = Array.from({ length: QUOTED_CASES }, (_, i) => QUOTED_SEEDS.from + i);
    expect(seeds.filter((seed) => groupOf(seed) === 'groove').length).toBeGreaterThanOrEqual(150);
  });
});

describe('quoted cases', () => {
  const hopeless = round.filter((seed) => drawCase(seed).noAnswer !== null);

  it.each(hopeless.map((seed) => [drawCase(seed).noAnswer, seed] as const))(
    'where nothing can be told nothing is claimed: %s, seed %i',
    (noAnswer, seed) => {
      const { score, state } = read(seed);
      expect(score.sure).toBe(0);
      if (noAnswer === 'one signal') expect(state).toBe('same-signal');
      if (noAnswer === 'dead input') expect(['no-signal', 'unclear', 'listening']).toContain(state);
    },
  );

  it('the first answerable ones: most are answered, and no polarity is ever wrong', () => {
    const scores = round
      .filter((seed) => drawCase(seed).noAnswer === null)
      .slice(0, 8)
      .map((seed) => read(seed).score);
    expect(scores.filter((score) => score.right).length).toBeGreaterThanOrEqual(4);
    expect(scores.filter((score) => score.flipped > 0)).toEqual([]);
  });
});

describe('the peers', () => {
  it.each([
    [1, 12.4],
    [-1, 12.4],
    [1, -40.2],
  ])('are all right where it is easy: one sound twice, sign %i, %f samples late', (sign, delaySamples) => {
    const { a, b } = pairOfHits({ sign, delaySamples, hits: 8, noise: 1e-4 });
    const outcome = readPeers(a, b, 48000, { maxLagMs: 11 });
    for (const peer of PEERS) {
      const last = outcome[peer].at(-1);
      if (peer === 'zero-lag sign') continue;
      expect(last?.polarity, peer).toBe(sign > 0 ? 'same' : 'inverted');
      expect(Math.abs((last?.delaySamples ?? Number.NaN) - delaySamples), peer).toBeLessThan(1);
    }
  });

  it('of which the zero-lag sign is right where the delay is next to nothing', () => {
    for (const sign of [1, -1]) {
      const { a, b } = pairOfHits({ sign, delaySamples: 1, hits: 8 });
      const last = readPeers(a, b, 48000, { maxLagMs: 11 })['zero-lag sign'].at(-1);
      expect(last).toMatchObject({ polarity: sign > 0 ? 'same' : 'inverted', delaySamples: null, hits: 8 });
    }
  });

  it('are not sure of two unrelated drums', () => {
    const { a } = pairOfHits({ hits: 8, seed: 3 });
    const { b } = pairOfHits({ hits: 8, seed: 4 });
    const outcome = readPeers(a, b, 48000, { maxLagMs: 11 });
    for (const peer of ['whole-hit PHAT', 'attack GCC, β 0.5'] as const) expect(outcome[peer].at(-1)).toBeNull();
  });

  describe.skipIf(!realRecordingsHere)(`on real recordings${realRecordingsHere ? '' : ` (${REAL_ABSENT})`}`, () => {
    const files = ['snare-top-bottom.wav', 'snare-top-overhead.wav'];
    it.each(files)('%s: the engine is right and never wrong, a correlation of whole hits never right', (file) => {
      const recording = realRecordings().find((t) => t.file === file);
      if (!recording) throw new Error(`${file} is not in the list`);
      const result = runCaseJob({ corpus: 'real', recording, variant: 'B + 7.5 samples' });
      expect(result[OURS]).toMatchObject({ right: true, wrong: 0 });
      expect(result['whole-hit cross-correlation']?.right).toBe(false);
    });
  });
});
