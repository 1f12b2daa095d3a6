/** The listening node in a context of its own, which no measured input is part of; for loops, or over a stream that comes in live. */
import listenUrl from '../../../worklets/listenProcessor.ts?worker&url';
import { type FromListen, LISTEN_PROCESSOR, type ListenOptions, type ToListen } from '../../listen/messages';
import type { ListeningPath, PathEvents } from '../../listen/path';
import type { Mix } from '../../listen/version';
import { problem, requireWorklet } from '../problems';
import { openContext, startContext } from '../realtimeContext';
import { watchOutputs } from './outputWatch';

/** faded out within, ms */
const FADE_MS = 80;

const STOPPED = 'The sound stopped because of an error; press “Play” again. If that doesn’t help, reload the page.';

const OTHER_OUTPUT =
  'An output was plugged or unplugged, so live sound is off: check that closed headphones are on, then press “Hear live” again.';

const UNHEARD = 'Nothing can be played here; check the sound output in the system’s settings, then try again.';

/** The node alone, in any context; `loadListening` comes first. */
export function listenNode(context: BaseAudioContext, options: ListenOptions): AudioWorkletNode {
  return new AudioWorkletNode(context, LISTEN_PROCESSOR, {
    numberOfInputs: 1,
    numberOfOutputs: 1,
    outputChannelCount: [2],
    channelCount: 2,
    channelCountMode: 'explicit',
    channelInterpretation: 'discrete',
    processorOptions: options,
  });
}

export const loadListening = (context: BaseAudioContext): Promise<void> => context.audioWorklet.addModule(listenUrl);

/** @param input null: loops. To be called in a press. @throws ProblemError, or what the browser throws */
export async function openPath(
  sampleRate: number,
  input: { stream: MediaStream; swapped: boolean } | null,
  events: PathEvents,
): Promise<ListeningPath> {
  requireWorklet();
  const context = openContext({ sampleRate, silent: false });
  let closed = false;
  const unwatch =
    input && navigator.mediaDevices
      ? watchOutputs(navigator.mediaDevices, () => void (closed || events.onStopped(OTHER_OUTPUT)))
      : () => undefined;
  try {
    await loadListening(context);
    const node = listenNode(context, { isLive: input !== null, swapped: input?.swapped ?? false });
    node.connect(context.destination);
    if (input) context.createMediaStreamSource(input.stream).connect(node);
    const stopped = (): void => void (closed || events.onStopped(STOPPED));
    node.port.onmessage = (event: MessageEvent<FromListen>) => {
      if (closed) return;
      if (event.data.type === 'runaway') events.onRunaway();
      else stopped();
    };
    node.onprocessorerror = stopped;
    await startContext(context).catch(() => {
      throw problem('unknown', UNHEARD);
    });
    const send = (message: ToListen): void => node.port.postMessage(message);
    return {
      choose: (mix: Mix) => send({ type: 'mix', mix }),
      setLoop: (a, b) => send({ type: 'loop', a, b }),
      setLevel: (level) => send({ type: 'level', level }),
      play: (on) => send({ type: 'play', on }),
      close() {
        if (closed) return;
        closed = true;
        unwatch();
        send({ type: 'play', on: false });
        setTimeout(() => void context.close().catch(() => undefined), FADE_MS);
      },
    };
  } catch (thrown) {
    closed = true;
    unwatch();
    void context.close().catch(() => undefined);
    throw thrown;
  }
}
