/** The recorder on a context that only notes. */
import { expect, onTestFinished, test, vi } from 'vitest';
import { startRecorder } from '../../../src/audio/listen/recorder';
import { LiveEars } from '../../../src/audio/live/liveEars';
import { RECENT_PROCESSOR } from '../../../src/listen/recent';

function stage(addModule: () => Promise<void> = async () => undefined) {
  const told: unknown[] = [];
  class Node {
    port = { postMessage: (message: unknown) => void told.push(message) };
    constructor(_: unknown, name: string, { processorOptions }: { processorOptions: { skipSeconds: number } }) {
      told.push(`${name} ${processorOptions.skipSeconds}`);
    }
  }
  vi.stubGlobal('AudioWorkletNode', Node);
  onTestFinished(() => void vi.unstubAllGlobals());
  const context = { sampleRate: 48_000, audioWorklet: { addModule } } as unknown as BaseAudioContext;
  const source = { connect: () => void told.push('connect'), disconnect: () => void told.push('disconnect') };
  return { told, context, source: source as unknown as AudioNode };
}

test('what is over: its processor is told to end, and is disconnected', async () => {
  const { told, context, source } = stage();
  const recorder = await startRecorder(context, source, 0.5);
  const begun = [`${RECENT_PROCESSOR} 0.5`, 'connect'];
  expect(told).toEqual(begun);
  recorder.end();
  expect(told).toEqual([...begun, { type: 'end' }, 'disconnect']);
});

test('an interface’s newest seconds are kept from its opening on, not from the first question', async () => {
  const { told, context, source } = stage();
  const ears = new LiveEars(context, source, 0.5);
  ears.begin();
  await vi.waitFor(() => expect(told).toContain('connect'));
  ears.close();
  await vi.waitFor(() => expect(told).toContain('disconnect'));
});

test('what couldn’t begin is tried again when somebody wants to hear it, and told then', async () => {
  const addModule = vi.fn(() => Promise.reject(new Error('no module')));
  const { context, source } = stage(addModule);
  const ears = new LiveEars(context, source, 0.5);
  ears.begin();
  await vi.waitFor(() => expect(addModule).toHaveBeenCalledTimes(1));
  await expect(ears.sound([], false, 0)).rejects.toThrow();
  expect(addModule).toHaveBeenCalledTimes(2);
});
