/** Real two-microphone drum recordings with references by first arrival (../shared/real, read there, never copied). */

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { readWav } from '../../src/files/readWav';
import { type Flat, flat } from '../support/readings/flat';
import {
  REAL_ABSENT,
  type RealRecording,
  realPath,
  realRecordings,
  realRecordingsHere,
} from '../support/sound/realRecordings';

interface Take {
  a: Float32Array;
  b: Float32Array;
  sampleRate: number;
}

function take(recording: RealRecording): Take {
  const wav = readWav(readFileSync(realPath(recording.file)));
  return { a: wav.read(0), b: wav.read(1), sampleRate: wav.sampleRate };
}

/** Every reading while the take plays, up to `hits` hits. */
function* readings({ a, b, sampleRate }: Take, hits = Number.POSITIVE_INFINITY): Generator<Flat> {
  const engine = new Engine(sampleRate);
  for (let i = 0; i < a.length; i += 2048) {
    engine.push(a.subarray(i, i + 2048), b.subarray(i, i + 2048));
    const r = flat(engine.reading());
    if (r.hits > hits) return;
    yield r;
  }
  engine.flush();
  yield flat(engine.reading());
}

const right = (r: Flat, t: RealRecording): boolean =>
  r.polarity === t.polarity &&
  Math.abs((r.delaySamples ?? Number.NaN) - (t.delaySamples ?? Number.NaN)) <= (t.toleranceSamples ?? 0);

describe.skipIf(!realRecordingsHere)(`real recordings${realRecordingsHere ? '' : ` (${REAL_ABSENT})`}`, () => {
  const list = realRecordingsHere ? realRecordings() : [];

  for (const t of list.filter((r) => r.class === 'firm'))
    it(`${t.file}: measured and right within 8 hits`, () => {
      let last: Flat | undefined;
      for (const r of readings(take(t), 8)) last = r;
      expect(last?.state).toBe('measured');
      expect(last && right(last, t), `${last?.delaySamples} ${last?.polarity}`).toBe(true);
    });

  for (const t of list.filter((r) => r.delaySamples !== undefined))
    it(`${t.file}: whenever it is measured, it is right`, () => {
      for (const r of readings(take(t)))
        if (r.state === 'measured')
          expect(right(r, t), `after ${r.hits} hits: ${r.delaySamples} ${r.polarity}`).toBe(true);
    });

  for (const t of list.filter((r) => r.class === 'groove'))
    it(`${t.file}: snare and kick are found, each from its own hits, and nothing else is sure`, () => {
      const found = new Set<string>();
      for (const r of readings(take(t)))
        for (const drum of r.drums) {
          if (drum.state !== 'measured') continue;
          const name = Object.entries(t.perDrum ?? {}).find(
            ([, truth]) => Math.abs((drum.delaySamples ?? Number.NaN) - truth.delaySamples) <= 3,
          )?.[0];
          expect(name, `after ${r.hits} hits: ${drum.delaySamples}`).toBeDefined();
          expect(drum.polarity).toBe('same');
          if (name) found.add(name);
        }
      expect([...found].sort()).toEqual(['kick', 'snare']);
    });

  for (const t of list.filter((r) => r.class === 'no-answer'))
    it(`${t.file}: never measured`, () => {
      for (const r of readings(take(t))) expect(r.state).not.toBe('measured');
    });

  for (const t of list.filter((r) => r.class === 'firm'))
    it(`${t.file}: B inverted and 9 samples later reads so`, () => {
      const { a, b, sampleRate } = take(t);
      const moved = b.map((_, i) => -(b[i - 9] ?? 0));
      let last: Flat | undefined;
      for (const r of readings({ a, b: moved, sampleRate }, 8)) last = r;
      expect(last?.state).toBe('measured');
      expect(last?.polarity).toBe(t.polarity === 'same' ? 'inverted' : 'same');
      expect(Math.abs((last?.delaySamples ?? Number.NaN) - 9 - (t.delaySamples ?? 0))).toBeLessThanOrEqual(
        t.toleranceSamples ?? 0,
      );
    });
});
