/** The listening node: the mixer between what comes in and what goes to the ears. `process` neither allocates nor throws. */
import { type FromListen, LISTEN_PROCESSOR, type ListenOptions, type ToListen } from '../src/listen/messages';
import { Mixer } from '../src/listen/mixer';

class ListenProcessor extends AudioWorkletProcessor {
  private readonly mixer: Mixer;
  private swapped: boolean;
  private told = false;
  private faulty = false;

  constructor(options: { processorOptions: ListenOptions }) {
    super();
    const { isLive, swapped } = options.processorOptions;
    this.mixer = new Mixer(sampleRate, isLive);
    this.swapped = swapped;
    this.port.onmessage = (event: MessageEvent<ToListen>) => {
      try {
        this.receive(event.data);
      } catch {
        this.fault();
      }
    };
  }

  /** Real-time safe: yes. */
  process(inputs: Float32Array[][], outputs: Float32Array[][]): boolean {
    if (this.faulty) return false;
    const out = outputs[0];
    const left = out?.[0];
    const right = out?.[1];
    if (left === undefined || right === undefined) return true;
    const input = inputs[0];
    const one = input?.[0] ?? null;
    const two = input?.[1] ?? null;
    try {
      if (this.swapped) this.mixer.process(two, one, left, right);
      else this.mixer.process(one, two, left, right);
    } catch {
      left.fill(0);
      right.fill(0);
      this.fault();
      return false;
    }
    if (this.mixer.muted && !this.told) this.send({ type: 'runaway' });
    this.told = this.mixer.muted;
    return true;
  }

  private receive(message: ToListen): void {
    switch (message.type) {
      case 'loop':
        this.mixer.setLoop(message.a, message.b);
        break;
      case 'mix':
        this.mixer.choose(message.mix);
        break;
      case 'level':
        this.mixer.setLevel(message.level);
        break;
      case 'play':
        this.mixer.play(message.on);
        break;
      case 'swap':
        this.swapped = message.on;
        break;
    }
  }

  private fault(): void {
    if (this.faulty) return;
    this.faulty = true;
    this.send({ type: 'fault' });
  }

  private send(message: FromListen): void {
    this.port.postMessage(message);
  }
}

registerProcessor(LISTEN_PROCESSOR, ListenProcessor);
