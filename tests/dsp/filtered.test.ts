/** One channel of real recordings heavily filtered: no other polarity is ever shown as sure, nor a delay that the filter made. */

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { readWav } from '../../src/files/readWav';
import { flat } from '../support/readings/flat';
import { filtered } from '../support/sound/filtered';
import { REAL_ABSENT, realPath, realRecordings, realRecordingsHere } from '../support/sound/realRecordings';

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
