import { describe, expect, it } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { type FromMeter, MOST_UNSEEN, READINGS_PER_SECOND, SEEN_TOGETHER } from '../../src/protocol/messages';
import { frameLength, readingFromFrame, SLOT } from '../../src/reading/frame';

describe('messages', () => {
  it('survive being cloned, as a port does, and the frame stays where it was', () => {
    const engine = new Engine(48000);
    const frame = new Float64Array(engine.frameLength);
    engine.writeFrame(frame);
    const message: FromMeter = { type: 'reading', frame, last: false };
    const received = structuredClone(message);
    expect(frame.length).toBe(engine.frameLength);
    expect(readingFromFrame(received.frame)).toEqual(readingFromFrame(frame));
  });

  it('carry frames of a length that follows from the reach', () => {
    for (const [rate, maxLagMs] of [
      [44100, 11],
      [48000, 34],
      [96000, 11],
    ] as const) {
      const engine = new Engine(rate, { maxLagMs });
      const frame = new Float64Array(engine.frameLength);
      engine.writeFrame(frame);
      const { curve, sampleRate } = readingFromFrame(frame);
      expect(frameLength(curve.values.length)).toBe(engine.frameLength);
      expect(sampleRate).toBe(rate);
      // the curve reaches as far as was asked
      const reachMs = (((curve.values.length - 1) / 2) * curve.stepSamples * 1000) / rate;
      expect(reachMs).toBeGreaterThan(maxLagMs - 0.1);
    }
  });

  it('of another version, or cut short, are refused', () => {
    const frame = new Float64Array(new Engine(48000).frameLength);
    frame[SLOT.head.version] = 99;
    expect(() => readingFromFrame(frame)).toThrow(RangeError);
    expect(() => readingFromFrame(new Float64Array(4))).toThrow(RangeError);
  });

  it('come often enough for an eye and a hand, and wait for a slow page without piling up', () => {
    expect(READINGS_PER_SECOND).toBeGreaterThanOrEqual(30);
    expect(READINGS_PER_SECOND).toBeLessThanOrEqual(60);
    // a page that is busy for a second still takes every reading, and hears of the stop in time
    expect((MOST_UNSEEN - SEEN_TOGETHER) / READINGS_PER_SECOND).toBeGreaterThanOrEqual(1);
    // no more than a few MB wait
    expect(MOST_UNSEEN * new Engine(96000, { maxLagMs: 34 }).frameLength * 8).toBeLessThan(4e6);
  });
});
