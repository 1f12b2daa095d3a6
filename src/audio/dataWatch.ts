/**
 * Does anything arrive? Frames come from the audio thread up to forty times a second while it is fed. Whatever keeps them
 * away (a context that is paused, a source that is suspended, a device that is frozen, a processor that hangs or is over)
 * looks the same from here: none comes.
 */
import { type FrameArrival, LEVEL_WINDOW_SECONDS } from '../reading/frame';

/** without data for so long nothing arrives, ms */
export const NO_DATA_MS = 1000;
/** a node that is new gets so long for its first, ms */
export const FIRST_DATA_MS = 5000;
/** ms; a hidden tab is let look once a second */
const LOOK_MS = 250;

export interface WatchClock {
  /** ms, any origin */
  nowMs(): number;
  /** @returns ends it */
  every(ms: number, act: () => void): () => void;
  /** after whatever messages have come already */
  afterMessages(act: () => void): void;
}

export interface DataWatchHandlers {
  /** nothing arrives; said once */
  onNone(): void;
  /** it goes on, or none is expected any more. @param isBack data arrive again, and meanwhile not even zeros did */
  onSome(isBack: boolean): void;
  /** the context doesn't run: what still comes was on its way */
  paused(): boolean;
}

export class DataWatch {
  /** takes in what lies there already, and isn't in a message */
  takeIn: () => void = () => undefined;
  private none = false;
  private any = false;
  private lastMs = 0;
  private lastSeconds = 0;
  private wasEmpty = false;
  /** zeros came meanwhile: a gate's, or a silence that was made; the stream ran on */
  private zeros = false;
  private stopLooking: (() => void) | null = null;

  constructor(
    private readonly handlers: DataWatchHandlers,
    private readonly clock: WatchClock = pageClock,
  ) {}

  /** From here on data should arrive. @param isNew the node has sent nothing yet */
  begin(isNew: boolean): void {
    this.lastMs = this.clock.nowMs();
    if (isNew) {
      this.any = false;
      this.lastSeconds = 0;
    }
    this.stopLooking ??= this.clock.every(LOOK_MS, () => this.look());
  }

  /** None are expected any more; what was said is taken back. */
  end(): void {
    this.stopLooking?.();
    this.stopLooking = null;
    if (this.none) this.goesOn(false);
  }

  /** Every frame. A frame that was asked for, of no newer moment, is no data; nor are samples that are all zero. */
  arrived({ streamSeconds, empty }: Pick<FrameArrival, 'streamSeconds' | 'empty'>): void {
    const isNewer = streamSeconds > this.lastSeconds;
    this.lastSeconds = streamSeconds;
    if (!isNewer || this.handlers.paused()) return;
    if (empty && !this.wasEmpty) this.lastMs -= LEVEL_WINDOW_SECONDS * 1000;
    const isBack = this.any && !this.zeros;
    this.wasEmpty = empty;
    if (empty) return;
    this.any = true;
    this.lastMs = this.clock.nowMs();
    if (this.none) this.goesOn(isBack);
  }

  /** A page that was busy, or asleep, finds frames and messages waiting: they are taken in first. */
  look(): void {
    if (this.isLate()) this.takeIn();
    if (this.isLate()) this.clock.afterMessages(() => this.isLate() && this.say());
  }

  /** The browser has paused the audio: nothing will come. */
  pause(): void {
    if (this.stopLooking !== null && !this.none) this.say();
  }

  private isLate(): boolean {
    if (this.stopLooking === null || this.none) return false;
    return this.clock.nowMs() - this.lastMs >= (this.any ? NO_DATA_MS : FIRST_DATA_MS);
  }

  private say(): void {
    this.none = true;
    this.zeros = this.wasEmpty && !this.handlers.paused();
    this.handlers.onNone();
  }

  private goesOn(isBack: boolean): void {
    this.none = false;
    this.handlers.onSome(isBack);
  }
}

export const pageClock: WatchClock = {
  nowMs: () => performance.now(),
  every(ms, act) {
    const timer = setInterval(act, ms);
    return () => clearInterval(timer);
  },
  afterMessages(act) {
    // a message of our own stands behind those; a timer would wait a second in a hidden tab
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      act();
    };
    port2.postMessage(null);
  },
};
