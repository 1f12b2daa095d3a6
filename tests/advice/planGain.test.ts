/** What a plan says that it gains, held against the recording with that really done (planTrial). `npm run bench -- plan` prints it. */
import { describe, expect, it } from 'vitest';
import { planTrial, type Trial } from '../support/sound/planTrial';
import { REAL_ABSENT, realRecordingsHere } from '../support/sound/realRecordings';
import { openPair, type RecordedPair, recordedPairs } from '../support/sound/recordedPairs';

/** the plan that is recommended never costs more, dB */
const COSTS_DB = 0.5;
/** and over all recordings gains so much of the best of a wider search */
const SHARE_OF_BEST = 0.9;
/** a recording of minutes with several drums, on a busy machine */
const PATIENCE_MS = 120_000;

const trials = new Map<string, Trial | null>();

function tried(pair: RecordedPair): Trial | null {
  const known = trials.get(pair.path);
  if (known !== undefined) return known;
  const trial = planTrial(openPair(pair), pair.kind);
  trials.set(pair.path, trial);
  return trial;
}

/** an input is dead, the two have nothing in common, no hit that counts, a groove under two overheads, of which no drum is theirs */
const NOTHING_TO_ADVISE = ['scene snare-dead-input', 'scene unrelated', 'crash-overheads', 'groove-overheads'];
const pairs = recordedPairs();

describe('a plan, really done', () => {
  for (const pair of pairs) {
    it(
      `${pair.name}: gains what it says, and the recommended one costs nothing`,
      () => {
        const trial = tried(pair);
        expect(trial === null).toBe(NOTHING_TO_ADVISE.includes(pair.name));
        if (trial === null) return;
        for (const { alternative, low, all } of trial.checked) {
          for (const figure of [low, all]) {
            if (figure === null || figure.toldDb === null) continue;
            const off = Math.abs(figure.toldDb - figure.gainsDb);
            expect(off, JSON.stringify([alternative, figure])).toBeLessThanOrEqual(figure.withinDb);
          }
        }
        const [recommended] = trial.checked;
        expect(recommended?.alternative.recommended).toBe(true);
        for (const figure of [recommended?.low, recommended?.all])
          if (figure) expect(figure.gainsDb).toBeGreaterThanOrEqual(-COSTS_DB);
      },
      PATIENCE_MS,
    );
  }

  it(`gains ${100 * SHARE_OF_BEST} % of the best of a wider search, over all recordings`, () => {
    const shares = pairs.flatMap((pair) => tried(pair)?.share ?? []);
    const gained = shares.reduce((sum, { gainsDb }) => sum + gainsDb, 0);
    const best = shares.reduce((sum, { bestDb }) => sum + bestDb, 0);
    expect(best).toBeGreaterThan(10);
    expect(gained / best).toBeGreaterThanOrEqual(SHARE_OF_BEST);
  });

  if (!realRecordingsHere) it.skip(`of the real recordings: ${REAL_ABSENT}`, () => {});
});
