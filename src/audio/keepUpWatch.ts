/**
 * Does the stream keep up, as the page sees it? The audio thread judges itself block by block and says so in each frame; here
 * the stream's time is held against the page's clock, for a thread whose own clock is coarse, or that hangs by turns. Messages
 * are taken in first: a page that is busy sees them late, but loses nothing.
 */
import { KeepingUp } from '../dsp/input/keepingUp';
import { fixed } from '../dsp/tuning/fixed';
import { KEEPING_UP } from '../dsp/tuning/keepingUpTuning';
import type { FrameArrival } from '../reading/frame';
import { pageClock, type WatchClock } from './dataWatch';

/** ms; a hidden tab is let look once a second */
const LOOK_MS = 250;
/** hits of so long before a loss that the page has noticed no longer count, s */
const LOST_SECONDS = 4;

/** Frames come every 25 ms: what is found here is coarser, and later. */
const ON_THE_PAGE = fixed({
  ...KEEPING_UP,
  slotMs: 500,
  leastLossMs: 60,
  mostLossMs: 200,
  firstScatterMs: 10,
  lossSlots: 8,
  overSlots: 8,
});

export interface KeepUpHandlers {
  /** takes in what lies there already, and isn't in a message */
  takeIn(): void;
  onDropping(): void;
  onOver(): void;
  /** the page alone has noticed: hits of so many seconds no longer count */
  onLost(seconds: number): void;
}

export class KeepUpWatch {
  private readonly keepingUp: KeepingUp;
  private isTold = false;
  private byThread = false;
  private streamMs = 0;
  private isNewer = false;
  private stopLooking: (() => void) | null = null;

  /** @param behindShare share of the time by which it falls behind until it is said */
  constructor(
    private readonly handlers: KeepUpHandlers,
    behindShare: number,
    private readonly clock: WatchClock = pageClock,
  ) {
    this.keepingUp = new KeepingUp(1000, { captured: false, tuning: { ...ON_THE_PAGE, behindShare } });
  }

  begin(): void {
    this.keepingUp.clear();
    this.isNewer = false;
    this.stopLooking ??= this.clock.every(LOOK_MS, () => this.clock.afterMessages(() => this.look()));
  }

  /** What was said is taken back. */
  end(): void {
    this.stopLooking?.();
    this.stopLooking = null;
    this.keepingUp.clear();
    this.byThread = false;
    this.tell();
  }

  /** Every frame. */
  arrived({ streamSeconds, dropping }: FrameArrival): void {
    if (this.stopLooking === null) return;
    const streamMs = streamSeconds * 1000;
    // it was begun anew
    if (streamMs < this.streamMs) this.keepingUp.clear();
    this.isNewer ||= streamMs !== this.streamMs;
    this.streamMs = streamMs;
    this.byThread = dropping;
    this.tell();
  }

  private look(): void {
    this.handlers.takeIn();
    if (this.stopLooking === null || !this.isNewer) return;
    this.isNewer = false;
    this.keepingUp.block(this.clock.nowMs(), this.streamMs, 0);
    if (this.keepingUp.dropping && !this.byThread) this.handlers.onLost(LOST_SECONDS);
    this.tell();
  }

  private tell(): void {
    const is = this.byThread || this.keepingUp.dropping;
    if (is === this.isTold) return;
    this.isTold = is;
    if (is) this.handlers.onDropping();
    else this.handlers.onOver();
  }
}
