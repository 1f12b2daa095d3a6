/** Keeps the newest seconds of an interface beside its meter: a node of its own, there only while somebody listens. */
import recentUrl from '../../../worklets/recentProcessor.ts?worker&url';
import {
  type FromRecent,
  RECENT_PROCESSOR,
  Recent,
  type RecentOptions,
  recentBytes,
  type ToRecent,
} from '../../listen/recent';
import { mayShareMemory } from '../sharedFrames';

/** memory that isn't sent by then isn't waited for, ms */
const SEND_MS = 2000;

export class Recorder {
  private node: AudioWorkletNode | null = null;
  private memory: SharedArrayBuffer | null = null;
  private wanted = false;

  constructor(
    private readonly context: BaseAudioContext,
    private readonly source: AudioNode,
  ) {}

  keep(on: boolean): void {
    this.wanted = on;
    if (!on) this.end();
    else if (this.node === null) void this.begin().catch(() => this.end());
  }

  /** null: nothing is kept yet. */
  async newest(): Promise<{ a: Float32Array; b: Float32Array } | null> {
    if (this.node === null) return null;
    const memory = this.memory ?? (await this.ask(this.node));
    return memory && new Recent(memory, this.context.sampleRate).newest();
  }

  private async begin(): Promise<void> {
    await this.context.audioWorklet.addModule(recentUrl);
    if (!this.wanted || this.node !== null) return;
    this.memory = mayShareMemory() ? new SharedArrayBuffer(recentBytes(this.context.sampleRate)) : null;
    const processorOptions: RecentOptions = { memory: this.memory };
    this.node = new AudioWorkletNode(this.context, RECENT_PROCESSOR, {
      numberOfInputs: 1,
      numberOfOutputs: 0,
      channelCount: 2,
      channelCountMode: 'explicit',
      channelInterpretation: 'discrete',
      processorOptions,
    });
    this.source.connect(this.node);
  }

  private ask(node: AudioWorkletNode): Promise<ArrayBuffer | null> {
    const asked: ToRecent = { type: 'take' };
    return new Promise((resolve) => {
      const timer = setTimeout(() => resolve(null), SEND_MS);
      node.port.onmessage = (event: MessageEvent<FromRecent>) => {
        clearTimeout(timer);
        resolve(event.data.memory);
      };
      node.port.postMessage(asked);
    });
  }

  private end(): void {
    if (this.node !== null) {
      // only disconnected, its processor would run on for as long as the context does
      const ended: ToRecent = { type: 'end' };
      this.node.port.postMessage(ended);
      this.source.disconnect(this.node);
    }
    this.node = null;
    this.memory = null;
  }
}
