/** Keeps the newest seconds of both inputs, as long as somebody wants to listen to them. `process` neither allocates nor throws. */
import {
  type FromRecent,
  RECENT_PROCESSOR,
  Recent,
  type RecentOptions,
  recentBytes,
  type ToRecent,
} from '../src/listen/recent';

class RecentProcessor extends AudioWorkletProcessor {
  private readonly recent: Recent;
  private ended = false;

  constructor(options: { processorOptions: RecentOptions }) {
    super();
    const own = options.processorOptions.memory === null ? new ArrayBuffer(recentBytes(sampleRate)) : null;
    this.recent = new Recent(own ?? (options.processorOptions.memory as SharedArrayBuffer), sampleRate);
    // what is sent is copied outside the collected heap
    this.port.onmessage = (event: MessageEvent<ToRecent>) => {
      if (event.data.type === 'end') this.ended = true;
      else if (own) this.send({ type: 'recent', memory: own });
    };
  }

  /** Real-time safe: yes. */
  process(inputs: Float32Array[][]): boolean {
    if (this.ended) return false;
    const input = inputs[0];
    if (input !== undefined && input.length >= 2) this.recent.push(input[0] as Float32Array, input[1] as Float32Array);
    return true;
  }

  private send(message: FromRecent): void {
    this.port.postMessage(message);
  }
}

registerProcessor(RECENT_PROCESSOR, RecentProcessor);
