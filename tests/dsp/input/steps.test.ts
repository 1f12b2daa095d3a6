/** Where blocks are missing both channels step at one sample; a drum doesn't. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { Runs } from '../../../src/dsp/input/runs';
import { Steps } from '../../../src/dsp/input/steps';
import { readWav } from '../../../src/files/readWav';
import { REAL_ABSENT, realPath, realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';
import { CAPTURE_RATE, hits, later } from '../../support/sound/signals';
import { throughSlowThread } from '../../support/sound/slowThread';

const STEP = 128;

/** Frames at which steps are found. */
function stepsOf(a: Float32Array, b: Float32Array, sampleRate: number, times = 1): number[] {
  const steps = new Steps(sampleRate);
  const x = new Float64Array(STEP);
  const y = new Float64Array(STEP);
  const found: number[] = [];
  for (let at = 0; at + STEP <= times * a.length; at += STEP) {
    for (let i = 0; i < STEP; i++) {
      x[i] = a[(at + i) % a.length];
      y[i] = b[(at + i) % b.length];
    }
    const ago = steps.run(x, y, STEP);
    if (ago >= 0) found.push(at + STEP - 1 - ago);
  }
  return found;
}

function wavOf(path: string) {
  const wav = readWav(readFileSync(path));
  return { a: wav.read(0), b: wav.read(1), sampleRate: wav.sampleRate };
}

describe('steps', () => {
  const clean = hits(40, 0.6, 1);

  it('are found at joints of a spliced pair and nowhere else', () => {
    const joined = throughSlowThread(clean, later(clean, 9, -0.7), { quantumMs: [6, 12] });
    const found = stepsOf(joined.a, joined.b, CAPTURE_RATE);
    const joints = new Set(joined.joints);
    expect(found.length).toBeGreaterThan(100);
    expect(found.filter((frame) => !joints.has(frame))).toEqual([]);
  });

  it('are none of a pair that is whole, of whatever delay', () => {
    for (const lag of [0, 1, 9]) expect(stepsOf(clean, later(clean, lag, -0.7), CAPTURE_RATE)).toEqual([]);
  });

  const kit = fileURLToPath(new URL('../../../samples/kit/', import.meta.url));
  it.each(readdirSync(kit).filter((name) => name.endsWith('.wav')))('%s, round and round: none', (name) => {
    const { a, b, sampleRate } = wavOf(kit + name);
    expect(stepsOf(a, b, sampleRate, 2)).toEqual([]);
  });

  it.skipIf(!realRecordingsHere)(`real recordings${realRecordingsHere ? '' : ` (${REAL_ABSENT})`}: none`, () => {
    for (const { file } of realRecordings()) {
      const { a, b, sampleRate } = wavOf(realPath(file));
      expect(stepsOf(a, b, sampleRate), file).toEqual([]);
    }
  });
});

describe('a hole', () => {
  const filled = (from: number, to: number): Float64Array =>
    Float64Array.from({ length: 9600 }, (_, i) => (i >= from && i < to ? 0 : 0.1 + (i % 7) / 100));
  const holeOf = (a: Float64Array, b: Float64Array) => {
    const runs = new Runs(48000);
    runs.run(a, b, a.length);
    return [runs.hole, runs.hole > 0 ? runs.holeAgo : 0];
  };

  it('is a stretch of zeros in the midst of both signals', () => {
    const a = filled(2000, 3024);
    expect(holeOf(a, a)).toEqual([1024, 9600 - 1 - 3024]);
  });

  it('is none in one channel alone, where one fades to it, of a few samples, or of an edit’s length', () => {
    expect(holeOf(filled(2000, 3024), filled(0, 0))).toEqual([0, 0]);
    expect(holeOf(filled(2000, 3024), filled(1900, 3024))).toEqual([0, 0]);
    expect(holeOf(filled(2000, 2020), filled(2000, 2020))).toEqual([0, 0]);
    expect(holeOf(filled(2000, 8000), filled(2000, 8000))).toEqual([0, 0]);
  });
});
