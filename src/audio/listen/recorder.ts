/** Keeps the newest seconds of an interface beside its meter, in a node of its own. */
import recentUrl from '../../../worklets/recentProcessor.ts?worker&url';
import {
  type FromRecent,
  RECENT_PROCESSOR,
  Recent,
  type RecentOptions,
  recentBytes,
  type ToRecent,
  withPages,
} from '../../listen/recent';
import { mayShareMemory } from '../sharedFrames';

/** memory that isn't sent by then isn't waited for, ms */
const SEND_MS = 2000;

/** @throws what the browser throws @param skipSeconds of the beginning, which aren't kept */
export async function startRecorder(
  context: BaseAudioContext,
  source: AudioNode,
  skipSeconds: number,
): Promise<Recorder> {
  await context.audioWorklet.addModule(recentUrl);
  return new Recorder(context, source, skipSeconds);
}

export class Recorder {
  private readonly node: AudioWorkletNode;
  private readonly memory: SharedArrayBuffer | null;

  constructor(
    private readonly context: BaseAudioContext,
    private readonly source: AudioNode,
    skipSeconds: number,
  ) {
    this.memory = mayShareMemory() ? withPages(new SharedArrayBuffer(recentBytes(context.sampleRate))) : null;
    const processorOptions: RecentOptions = { memory: this.memory, skipSeconds };
    this.node = new AudioWorkletNode(context, RECENT_PROCESSOR, {
      numberOfInputs: 1,
      numberOfOutputs: 0,
      channelCount: 2,
      channelCountMode: 'explicit',
      channelInterpretation: 'discrete',
      processorOptions,
    });
    source.connect(this.node);
  }

  /** null: it didn't answer. */
  async newest(): Promise<{ a: Float32Array; b: Float32Array } | null> {
    const memory = this.memory ?? (await this.ask());
    return memory && new Recent(memory, this.context.sampleRate).newest();
  }

  end(): void {
    // only disconnected, its processor would run on for as long as the context does
    const ended: ToRecent = { type: 'end' };
    this.node.port.postMessage(ended);
    this.source.disconnect(this.node);
  }

  private ask(): Promise<ArrayBuffer | null> {
    const asked: ToRecent = { type: 'take' };
    return new Promise((resolve) => {
      const timer = setTimeout(() => resolve(null), SEND_MS);
      this.node.port.onmessage = (event: MessageEvent<FromRecent>) => {
        clearTimeout(timer);
        resolve(event.data.memory);
      };
      this.node.port.postMessage(asked);
    });
  }
}
