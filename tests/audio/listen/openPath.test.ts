/** Live sound over an output that goes. What comes out is rendered in tests/browser/listen. */
import { expect, onTestFinished, test, vi } from 'vitest';
import { openPath } from '../../../src/audio/listen/openPath';

vi.mock('../../../src/audio/problems', async (actual) => ({
  ...(await actual<object>()),
  requireWorklet: () => undefined,
}));
vi.mock('../../../src/audio/realtimeContext', () => ({
  openContext: () => ({
    audioWorklet: { addModule: async () => undefined },
    createMediaStreamSource: () => ({ connect: () => undefined }),
    close: async () => undefined,
  }),
  startContext: async () => undefined,
}));

function stage() {
  let outputs = ['phones', 'speakers'];
  const mediaDevices = Object.assign(new EventTarget(), {
    enumerateDevices: async () =>
      outputs.map((deviceId) => ({ kind: 'audiooutput', deviceId, label: '', groupId: '' })),
  });
  vi.stubGlobal('navigator', { mediaDevices });
  vi.stubGlobal(
    'AudioWorkletNode',
    class {
      port = { postMessage: () => undefined };
      connect(): void {}
    },
  );
  onTestFinished(() => void vi.unstubAllGlobals());
  const events = { onRunaway: vi.fn(), onStopped: vi.fn() };
  const unplug = async (): Promise<void> => {
    outputs = ['speakers'];
    mediaDevices.dispatchEvent(new Event('devicechange'));
    await new Promise((done) => setTimeout(done));
  };
  return { events, unplug };
}

const input = { stream: {} as MediaStream, swapped: false };

test('live sound is off when headphones are unplugged, and says what to do', async () => {
  const { events, unplug } = stage();
  await openPath(48_000, input, events);
  await unplug();
  expect(events.onStopped.mock.calls).toEqual([
    [expect.stringMatching(/unplugged.*closed headphones.*“Hear live” again/)],
  ]);
});

test('a loop plays on, and a path that is closed tells nothing', async () => {
  const loop = stage();
  await openPath(48_000, null, loop.events);
  await loop.unplug();
  expect(loop.events.onStopped).not.toHaveBeenCalled();
  const live = stage();
  (await openPath(48_000, input, live.events)).close();
  await live.unplug();
  expect(live.events.onStopped).not.toHaveBeenCalled();
});
