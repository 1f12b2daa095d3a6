/** The page's end of one meter node: messages, faults, a new node after a fault. */
import meterUrl from '../../worklets/meterProcessor.ts?worker&url';
import { longestFrame, ringMemory, ringTakes } from '../protocol/frameRing';
import {
  type FromMeter,
  type MeterProcessorOptions,
  PROCESSOR_NAME,
  PROTOCOL_VERSION,
  SEEN_TOGETHER,
  type ToMeter,
} from '../protocol/messages';
import { arrivalOf, type FrameArrival, readingFromFrame, stampOf } from '../reading/frame';
import { type Pictures, type PictureWish, picturesFrom } from '../reading/hitPictures';
import type { Reading } from '../reading/reading';
import type { MeterLink, MeterSettings } from './link';
import { faultProblem, problem } from './problems';
import { mayShareMemory, SharedFrames } from './sharedFrames';

export interface MeterHandlers {
  /** `last`: the answer to `flush` */
  onReading(reading: Reading, last: boolean): void;
  onPictures(pictures: Pictures): void;
  /** every frame, also those whose reading is of before a change and isn't passed on */
  onFrame?(arrival: FrameArrival): void;
  /** the node is silent from here on, until `restart` */
  onFault(thrown: unknown): void;
}

export interface MeterRun {
  skipSeconds?: number;
  readingsPerSecond?: number;
  live?: boolean;
  captured?: boolean;
}

/** a program that hasn't arrived by then is said to be missing, ms */
const LOAD_MS = 5000;

/** @throws ProblemError `worklet-fault` */
export async function loadMeter(context: BaseAudioContext): Promise<void> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const tooLong = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(NOT_LOADED), LOAD_MS);
  });
  try {
    await Promise.race([context.audioWorklet.addModule(meterUrl), tooLong]);
  } catch {
    throw NOT_LOADED;
  } finally {
    clearTimeout(timer);
  }
}

const NOT_LOADED = problem(
  'worklet-fault',
  'The meter’s program doesn’t arrive from this page’s server; check that the server is running, then press “Start over”.',
);

/** `loadMeter` comes first. */
export class Meter {
  private node: AudioWorkletNode;
  private faulty = false;
  /** null: the readings come as messages */
  private shared: SharedFrames | null = null;
  /** readings taken in since the audio thread was told */
  private seen = 0;
  /** counts what changes the meaning of a reading; those that carry an older one were on their way before it */
  private stamp = 0;

  constructor(
    private readonly context: BaseAudioContext,
    private settings: MeterSettings,
    private readonly run: MeterRun,
    private readonly handlers: MeterHandlers,
    private source: AudioNode,
  ) {
    this.node = this.build();
  }

  hold(on: boolean): void {
    this.send({ type: 'hold', on });
  }

  invertB(on: boolean): void {
    this.settings = { ...this.settings, invertB: on };
    this.send({ type: 'invert-b', stamp: ++this.stamp, on });
  }

  chooseDrum(id: number | null): void {
    this.send({ type: 'drum', stamp: ++this.stamp, id });
  }

  /** Answered by `onPictures`. */
  pictures(wish: PictureWish): void {
    this.send({ type: 'pictures', wish });
  }

  /**
   * @returns whether the node is a new one, because of a fault
   * @throws ProblemError `worklet-fault` where it can't be had; the next restart tries again
   */
  restart(settings: MeterSettings): boolean {
    this.settings = settings;
    if (this.faulty) {
      this.disconnect();
      this.node = this.build();
      this.faulty = false;
      return true;
    }
    this.send({ type: 'invert-b', stamp: ++this.stamp, on: settings.invertB });
    const { invertB: _, ...rest } = settings;
    this.send({ type: 'restart', stamp: ++this.stamp, ...rest, ...this.ringFor(settings.maxLagMs) });
    return false;
  }

  /** What a link passes on as it is. */
  controls(): Pick<MeterLink, 'hold' | 'invertB' | 'chooseDrum' | 'pictures'> {
    return {
      hold: (on) => this.hold(on),
      invertB: (on) => this.invertB(on),
      chooseDrum: (id) => this.chooseDrum(id),
      pictures: (wish) => this.pictures(wish),
    };
  }

  /** Frames were lost somewhere in the last so many seconds. */
  lost(seconds: number): void {
    this.send({ type: 'lost', seconds });
  }

  /** Ask for the reading at the stream's end. */
  flush(): void {
    this.send({ type: 'flush' });
  }

  /** Another source of the same kind takes over. */
  feedFrom(source: AudioNode): void {
    this.source = source;
    source.connect(this.node);
  }

  /** Whatever has come already, before the browser says so itself. */
  takeIn(): void {
    this.shared?.takeAll();
  }

  disconnect(): void {
    this.endShared();
    this.node.port.onmessage = null;
    this.node.onprocessorerror = null;
    try {
      this.source.disconnect(this.node);
    } catch {
      // not connected any more
    }
  }

  /** @throws ProblemError `worklet-fault` */
  private build(): AudioWorkletNode {
    this.endShared();
    const processorOptions: MeterProcessorOptions = {
      version: PROTOCOL_VERSION,
      ...this.settings,
      ...this.run,
      ...this.ringFor(this.settings.maxLagMs),
    };
    this.seen = 0;
    // a new node has been told everything
    this.stamp = 0;
    let node: AudioWorkletNode;
    try {
      // no output: it runs without a connection to the destination, and can't be heard
      node = new AudioWorkletNode(this.context, PROCESSOR_NAME, {
        numberOfInputs: 1,
        numberOfOutputs: 0,
        channelCount: 2,
        channelCountMode: 'explicit',
        channelInterpretation: 'discrete',
        processorOptions,
      });
    } catch (thrown) {
      this.endShared();
      throw faultProblem(thrown);
    }
    node.port.onmessage = (event: MessageEvent<FromMeter>) => this.receive(event.data);
    node.onprocessorerror = () => this.fail('internal error');
    this.source.connect(node);
    return node;
  }

  private endShared(): void {
    this.shared?.close();
    this.shared = null;
  }

  /** Memory for readings of this reach, where it may be shared, and what there is is too small. */
  private ringFor(maxLagMs: number): { ring?: SharedArrayBuffer } {
    // an offline context is stopped now and then, and hears messages only
    if (this.run.live === false || !mayShareMemory()) return {};
    const longest = longestFrame(this.context.sampleRate, maxLagMs);
    if (this.shared && ringTakes(this.shared.memory) >= longest) return {};
    // what is left in the one before is of before the restart
    this.endShared();
    const ring = ringMemory(longest);
    this.shared = new SharedFrames(ring, (frame) => this.takeFrame(frame, false));
    return { ring };
  }

  private receive(message: FromMeter): void {
    // what was written before the message was sent
    this.takeIn();
    if (message.type === 'fault') this.fail(message.text);
    if (message.type === 'pictures') this.handlers.onPictures(picturesFrom(message.pictures));
    if (message.type !== 'reading') return;
    this.seen += 1;
    if (this.seen === SEEN_TOGETHER) {
      this.send({ type: 'seen', readings: this.seen });
      this.seen = 0;
    }
    this.takeFrame(message.frame, message.last);
  }

  private takeFrame(frame: Float64Array, last: boolean): void {
    this.handlers.onFrame?.(arrivalOf(frame));
    // the last one ends a recording, whatever it means
    if (stampOf(frame) !== this.stamp && !last) return;
    this.handlers.onReading(readingFromFrame(frame), last);
  }

  private fail(thrown: unknown): void {
    if (this.faulty) return;
    this.faulty = true;
    this.handlers.onFault(thrown);
  }

  private send(message: ToMeter): void {
    this.node.port.postMessage(message);
  }
}
