/** The recorder on a context that only notes. */
import { expect, onTestFinished, test, vi } from 'vitest';
import { Recorder } from '../../../src/audio/listen/recorder';

test('nobody wants to listen any more: its processor is told to end, and is disconnected', async () => {
  const told: unknown[] = [];
  class Node {
    port = { postMessage: (message: unknown) => void told.push(message) };
  }
  vi.stubGlobal('AudioWorkletNode', Node);
  onTestFinished(() => void vi.unstubAllGlobals());
  const context = { sampleRate: 48_000, audioWorklet: { addModule: async () => undefined } };
  const source = { connect: () => void told.push('connect'), disconnect: () => void told.push('disconnect') };
  const recorder = new Recorder(context as unknown as BaseAudioContext, source as unknown as AudioNode);
  recorder.keep(true);
  await new Promise((done) => setTimeout(done));
  expect(told).toEqual(['connect']);
  recorder.keep(false);
  expect(told).toEqual(['connect', { type: 'end' }, 'disconnect']);
});
