/** Keeps the newest seconds of both inputs, for whoever wants to listen to them. `process` neither allocates nor throws. */
import {
  type FromRecent,
  RECENT_PROCESSOR,
  Recent,
  type RecentOptions,
  recentBytes,
  type ToRecent,
  withPages,
} from '../src/listen/recent';

class RecentProcessor extends AudioWorkletProcessor {
  private readonly recent: Recent;
  private ended = false;
  /** frames still to be left out */
  private skip: number;

  constructor(options: { processorOptions: RecentOptions }) {
    super();
    const { memory, skipSeconds } = options.processorOptions;
    const own = memory === null ? withPages(new ArrayBuffer(recentBytes(sampleRate))) : null;
    this.recent = new Recent(own ?? (memory as SharedArrayBuffer), sampleRate);
    this.skip = Math.round(skipSeconds * sampleRate);
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
    if (input === undefined || input.length < 2) return true;
    const a = input[0] as Float32Array;
    if (this.skip > 0) this.skip -= a.length;
    else this.recent.push(a, input[1] as Float32Array);
    return true;
  }

  private send(message: FromRecent): void {
    this.port.postMessage(message);
  }
}

registerProcessor(RECENT_PROCESSOR, RecentProcessor);
