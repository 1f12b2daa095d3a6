/** One channel of real recordings heavily filtered: no other polarity is ever shown as sure, nor a delay that the filter made. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { readWav } from '../../src/files/readWav';
import { flat } from '../support/readings/flat';
import { REAL_ABSENT, realPath, realRecordings, realRecordingsHere } from '../support/sound/realRecordings';

/** Second-order Butterworth high- or low-pass, bilinear (R. Bristow-Johnson's audio EQ cookbook, Q = 1/√2; from memory). */
function filtered(x: Float32Array, kind: 'high' | 'low', hz: number, sampleRate: number): Float32Array {
  const w = (2 * Math.PI * hz) / sampleRate;
  const alpha = Math.sin(w) / Math.SQRT2;
  const cos = Math.cos(w);
  const a0 = 1 + alpha;
  const edge = kind === 'high' ? 1 + cos : 1 - cos;
  const [b0, b1, b2] = [edge / 2 / a0, (kind === 'high' ? -edge : edge) / a0, edge / 2 / a0];
  const [a1, a2] = [(-2 * cos) / a0, (1 - alpha) / a0];
  const y = new Float32Array(x.length);
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    const v = x[i] as number;
    const out = b0 * v + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
    [x2, x1, y2, y1] = [x1, v, y1, out];
    y[i] = out;
  }
  return y;
}

describe.skipIf(!realRecordingsHere)(
  `filtered channels${realRecordingsHere ? '' : ` (skipped: ${REAL_ABSENT})`}`,
  () => {
    for (const t of realRecordings().filter((one) => one.class === 'firm'))
      for (const [kind, hz] of [
        ['high', 2000],
        ['low', 300],
      ] as const)
        test(`${t.file}, B through a ${kind}-pass at ${hz} Hz, fourth order`, () => {
          const wav = readWav(readFileSync(realPath(t.file)));
          const a = wav.read(0);
          const once = filtered(wav.read(1), kind, hz, wav.sampleRate);
          const b = filtered(once, kind, hz, wav.sampleRate);
          const engine = new Engine(wav.sampleRate);
          let hits = 0;
          for (let i = 0; i < a.length; i += 1024) {
            engine.push(a.subarray(i, i + 1024), b.subarray(i, i + 1024));
            const reading = flat(engine.reading());
            hits = reading.hits;
            if (reading.state !== 'measured') continue;
            expect(reading.polarity).toBe(t.polarity);
            expect(Math.abs((reading.delaySamples as number) - (t.delaySamples as number))).toBeLessThanOrEqual(
              t.toleranceSamples as number,
            );
          }
          expect(hits).toBeGreaterThan(3);
        });
  },
);
