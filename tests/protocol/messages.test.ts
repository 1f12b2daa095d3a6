import { describe, expect, it } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { frameLength, HEAD, readingFromFrame } from '../../src/dsp/frame';
import { FRAME_POOL, type FromMeter, READINGS_PER_SECOND, type ToMeter } from '../../src/protocol/messages';

describe('messages', () => {
  it('survive being cloned, as a port does, and a frame’s buffer is moved and not copied', () => {
    const engine = new Engine(48000);
    const frame = new Float64Array(engine.frameLength);
    engine.writeFrame(frame);
    const expected = readingFromFrame(frame);
    const message: FromMeter = { type: 'reading', buffer: frame.buffer, last: false };
    const received = structuredClone(message, { transfer: [frame.buffer] });
    expect(frame.byteLength).toBe(0);
    expect(readingFromFrame(new Float64Array(received.buffer))).toEqual(expected);
    const back: ToMeter = { type: 'frame', buffer: received.buffer };
    expect(structuredClone(back, { transfer: [received.buffer] }).buffer.byteLength).toBe(engine.frameLength * 8);
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
    frame[HEAD.version] = 99;
    expect(() => readingFromFrame(frame)).toThrow(RangeError);
    expect(() => readingFromFrame(new Float64Array(4))).toThrow(RangeError);
  });

  it('come often enough for an eye and a hand, with frames to spare for a slow page', () => {
    expect(READINGS_PER_SECOND).toBeGreaterThanOrEqual(30);
    expect(READINGS_PER_SECOND).toBeLessThanOrEqual(60);
    // a page that is busy for 0.1 s still takes every reading
    expect(FRAME_POOL / READINGS_PER_SECOND).toBeGreaterThanOrEqual(0.1);
  });
});
