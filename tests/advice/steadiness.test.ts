/** What is advised while a recording plays, ten times a second as the meter shows it: no sentence comes back once it left. */
import { describe, expect, it } from 'vitest';
import type { AdviceContext } from '../../src/advice/advice';
import { type PairKindId, pairKind } from '../../src/advice/plan/pairKinds';
import { Engine } from '../../src/dsp/engine';
import { Adviser } from '../../src/state/meter/adviser';
import { REAL_ABSENT, realRecordingsHere } from '../support/sound/realRecordings';
import { openPair, type RecordedPair, recordedPairs } from '../support/sound/recordedPairs';

const READINGS_PER_SECOND = 10;
/** a scene is a loop: it goes on for so long, s */
const SCENE_SECONDS = 20;

/** The sentences in the order in which they were shown, one after the other. */
function shown(pair: RecordedPair, kind: PairKindId): string[] {
  const { sampleRate, a, b } = openPair(pair);
  const context: AdviceContext = { kind, temperatureC: 20, invertB: false };
  const engine = new Engine(sampleRate, { maxLagMs: pairKind(kind).maxLagMs });
  const adviser = new Adviser();
  const block = Math.round(sampleRate / READINGS_PER_SECOND);
  const blockA = new Float32Array(block);
  const blockB = new Float32Array(block);
  const frames = pair.demo ? SCENE_SECONDS * sampleRate : a.length;
  const sentences: string[] = [];
  for (let at = 0; at < frames; at += block) {
    for (let i = 0; i < block; i++) {
      const from = pair.demo ? (at + i) % a.length : at + i;
      blockA[i] = a[from] ?? 0;
      blockB[i] = b[from] ?? 0;
    }
    engine.push(blockA, blockB);
    // beyond the time in which a change of the meter is still on its way
    const { text } = adviser.think(engine.reading(), context, 1000 * (10 + at / sampleRate));
    if (text !== sentences.at(-1)) sentences.push(text);
  }
  return sentences;
}

/** Those that came back after another had taken their place. */
const cameBack = (sentences: string[]): string[] => sentences.filter((text, i) => sentences.indexOf(text) < i);

describe('no sentence comes back once it left', () => {
  for (const pair of recordedPairs()) {
    for (const kind of pair.kind === 'other' ? [pair.kind] : ([pair.kind, 'other'] as const)) {
      it(`${pair.name} as ${kind}`, () => {
        const sentences = shown(pair, kind);
        expect(sentences.length).toBeGreaterThan(0);
        expect(cameBack(sentences)).toEqual([]);
      });
    }
  }

  if (!realRecordingsHere) it.skip(`of the real recordings: ${REAL_ABSENT}`, () => {});
});
