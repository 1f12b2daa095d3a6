/**
 * Frames out of shared memory as they come. The page is woken by the audio thread itself, no timer and no animation frame comes
 * into it, so a hidden tab is woken as well.
 */
import { canWait, FrameRingReader } from '../protocol/frameRing';

/** The page's server has to isolate it, and the browser to wake it. */
export const mayShareMemory = (): boolean => globalThis.crossOriginIsolated === true && canWait();

export class SharedFrames {
  private readonly reader: FrameRingReader;
  private closed = false;

  constructor(
    readonly memory: SharedArrayBuffer,
    private readonly onFrame: (frame: Float64Array) => void,
  ) {
    this.reader = new FrameRingReader(memory);
    void this.watch();
  }

  /** All that are there, in order. */
  takeAll(): void {
    while (!this.closed) {
      const frame = this.reader.take();
      if (frame === null) return;
      this.onFrame(frame);
    }
  }

  /** None is handed on any more, and nothing waits. */
  close(): void {
    this.closed = true;
    this.reader.wake();
  }

  private async watch(): Promise<void> {
    while (!this.closed) {
      await this.reader.more();
      try {
        this.takeAll();
      } catch (thrown) {
        // said as of any message, and the next frame is taken in
        reportError(thrown);
      }
    }
  }
}
