import { expect, test } from 'vitest';
import { audioGarbage, audioThreads, percentile, processMs, scriptMsPerFrame, type TraceEvent } from './trace';

const AUDIO = { pid: 1, tid: 7 };
const MAIN = { pid: 1, tid: 1 };
const event = (thread: { pid: number; tid: number }, name: string, ts: number, dur: number): TraceEvent => ({
  ...thread,
  name,
  cat: '',
  ph: 'X',
  ts,
  dur,
});

const trace: TraceEvent[] = [
  event(AUDIO, 'AudioWorkletHandler::Process', 0, 40),
  event(AUDIO, 'AudioWorkletHandler::Process', 2900, 60),
  event(AUDIO, 'MinorGC', 3000, 500),
  event(AUDIO, 'V8.GC_SCAVENGER', 3100, 300),
  event(AUDIO, 'V8.GCIncrementalMarking', 9000, 200),
  event(MAIN, 'MinorGC', 3000, 900),
  event(MAIN, 'FireAnimationFrame', 1000, 100),
  // a message handler with a callback inside it, then the second frame with two callbacks right after each other
  event(MAIN, 'FunctionCall', 5000, 300),
  event(MAIN, 'FunctionCall', 5100, 100),
  event(MAIN, 'FireAnimationFrame', 17_000, 1000),
  event(MAIN, 'FunctionCall', 17_100, 700),
  event(MAIN, 'FireAnimationFrame', 18_100, 400),
  event(MAIN, 'FunctionCall', 30_000, 50),
];

test('process() times come from the audio thread, in ms', () => {
  expect(processMs(trace)).toEqual([0.04, 0.06]);
});

test('garbage is counted on audio threads only, each collection once, nested spans once', () => {
  expect(audioGarbage(trace)).toEqual({ count: 1, totalMs: 0.7, longestMs: 0.5 });
  const later = trace.filter(({ name }) => name !== 'AudioWorkletHandler::Process');
  expect(audioGarbage(later)).toEqual({ count: 0, totalMs: 0, longestMs: 0 });
  expect(audioGarbage(later, audioThreads(trace))).toEqual(audioGarbage(trace));
});

test('script per frame takes in the handlers before it and counts nested calls once', () => {
  expect(scriptMsPerFrame(trace)).toEqual([1.7]);
});

test('percentile by nearest rank', () => {
  expect(percentile([5, 1, 4, 2, 3], 0.5)).toBe(3);
  expect(percentile([5, 1, 4, 2, 3], 0.95)).toBe(5);
  expect(percentile([], 0.5)).toBeNaN();
});
