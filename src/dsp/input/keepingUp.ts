/**
 * Whether the audio thread keeps up: the stream's time against the clock's. Blocks come in bunches and late, but never early: only
 * the lower envelope of clock − stream counts, the least over a second. A block that was lost lifts it for good. A converter's rate
 * is followed, and so is a clock that was set, which costs a loss that was none. Every number lives in one array: a fraction
 * in a field may be a new object each time.
 */
import { KEEPING_UP, type KeepingUpTuning } from '../tuning/keepingUpTuning';

/** places in the array of numbers */
const BASE_MS = 0;
const BASE_FRAME = 1;
const NEXT_FRAME = 2;
const SLOT_FROM_MS = 3;
const SLOT_LEAST = 4;
/** the envelope as it is expected, how far above that it mostly is, and how far it scatters */
const EXPECTED = 5;
const ABOVE = 6;
const SCATTER = 7;
/** how much it has risen in the slots in which losses add up */
const GROWN = 8;
/** ms that the stream's own count jumped ahead in this slot */
const JUMPED = 9;
const NUMBERS = 10;

export interface KeepingUpOptions {
  /** what isn't taken in time is lost, so that single losses count; false: nothing is, until the stream really falls behind */
  captured: boolean;
  tuning?: KeepingUpTuning;
}

/** One stream. `block` for each block, whatever its length; everything is allocated in the constructor. */
export class KeepingUp {
  /** it loses again and again: no reading is certain */
  dropping = false;
  /** the clock at the block that begins, ms, to about 1 ms; put here, not handed over: a fraction in a call may be a new object */
  readonly nowMs = new Float64Array(1);
  private readonly tuning: KeepingUpTuning;
  private readonly captured: boolean;
  private readonly n = new Float64Array(NUMBERS);
  /** of the newest slots: least clock − stream, ms, and the frame at which each began */
  private readonly least: Float64Array;
  private readonly fromFrame: Float64Array;
  /** of the slots in which losses add up: envelope, and what was found lost, ms */
  private readonly envelope: Float64Array;
  private readonly lost: Float64Array;
  private readonly jumped: Float64Array;
  private slots = 0;
  private slotsSinceLoss = 0;
  private begun = false;

  constructor(
    private readonly sampleRate: number,
    { captured, tuning = KEEPING_UP }: KeepingUpOptions,
  ) {
    this.tuning = tuning;
    this.captured = captured;
    this.least = new Float64Array(tuning.envelopeSlots);
    this.fromFrame = new Float64Array(tuning.envelopeSlots + 1);
    this.envelope = new Float64Array(tuning.lossSlots);
    this.lost = new Float64Array(tuning.lossSlots);
    this.jumped = new Float64Array(tuning.lossSlots);
  }

  /**
   * A block begins; `nowMs` holds when. Real-time safe: yes.
   * @param frame the stream's number of its first frame
   * @param frames in it; 0: it isn't said, and the next may have any number
   * @returns −1, or that something was lost: so many frames ago at most
   */
  block(frame: number, frames: number): number {
    const { n } = this;
    const nowMs = this.nowMs[0] as number;
    if (!this.begun) this.begin(frame);
    const jumped = frame !== n[NEXT_FRAME] && this.slots > 0 && frames > 0;
    if (jumped)
      n[JUMPED] = (n[JUMPED] as number) + (Math.max(0, frame - (n[NEXT_FRAME] as number)) * 1000) / this.sampleRate;
    n[NEXT_FRAME] = frame + frames;
    const late = nowMs - (n[BASE_MS] as number) - ((frame - (n[BASE_FRAME] as number)) * 1000) / this.sampleRate;
    if (late < (n[SLOT_LEAST] as number)) n[SLOT_LEAST] = late;
    const inSlotMs = nowMs - (n[SLOT_FROM_MS] as number);
    let ago = jumped ? 0 : -1;
    if (inSlotMs >= this.tuning.slotMs) {
      // since the slot that is looked at no more began: it was the last with blocks that weren't late
      if (this.close()) ago = frame - (this.fromFrame[this.slots % this.fromFrame.length] as number);
      this.open(frame);
    } else if (inSlotMs < 0) n[SLOT_FROM_MS] = nowMs;
    return ago;
  }

  /** A block for which nobody looks at the clock. Real-time safe: yes. @returns false: it doesn't follow the one before, and needs a look */
  follows(frame: number, frames: number): boolean {
    if (!this.begun || frame !== this.n[NEXT_FRAME]) return false;
    this.n[NEXT_FRAME] = frame + frames;
    return true;
  }

  /** Another stream, or one that begins anew. Real-time safe: yes. */
  clear(): void {
    this.begun = false;
    this.dropping = false;
  }

  private begin(frame: number): void {
    const { n } = this;
    n[BASE_MS] = this.nowMs[0] as number;
    n[BASE_FRAME] = frame;
    n[NEXT_FRAME] = frame;
    n[ABOVE] = 0;
    n[SCATTER] = this.tuning.firstScatterMs;
    this.slots = 0;
    this.slotsSinceLoss = 0;
    this.lost.fill(0);
    this.jumped.fill(0);
    n[JUMPED] = 0;
    this.begun = true;
    this.open(frame);
  }

  private open(frame: number): void {
    this.n[SLOT_FROM_MS] = this.nowMs[0] as number;
    this.n[SLOT_LEAST] = Number.POSITIVE_INFINITY;
    this.fromFrame[this.slots % this.fromFrame.length] = frame;
  }

  /** A slot is full. @returns whether something was lost */
  private close(): boolean {
    const { n, least, envelope, tuning } = this;
    least[this.slots % least.length] = n[SLOT_LEAST] as number;
    this.slots++;
    if (this.slots < least.length) return false;
    let now = Number.POSITIVE_INFINITY;
    for (let i = 0; i < least.length; i++) if ((least[i] as number) < now) now = least[i] as number;
    const isFirst = this.slots === least.length;
    if (isFirst) {
      n[EXPECTED] = now;
      envelope.fill(now);
    }
    const off = now - (n[EXPECTED] as number);
    const above = off - (n[ABOVE] as number);
    const lifted = Math.max(tuning.leastLossMs, tuning.scatters * (n[SCATTER] as number));
    const isLoss = above > Math.min(lifted, tuning.mostLossMs);
    const at = this.slots % envelope.length;
    // what it was so many slots ago is still there
    n[GROWN] = now - (envelope[at] as number);
    envelope[at] = now;
    this.jumped[at] = n[JUMPED] as number;
    n[JUMPED] = 0;
    this.lost[at] = (isLoss ? off : 0) + (this.jumped[at] as number);
    if (isLoss || off < 0) n[EXPECTED] = now;
    else n[EXPECTED] = (n[EXPECTED] as number) + tuning.followShare * off;
    if (!isLoss) {
      // a mean of all while there are few
      const share = Math.max(tuning.scatterShare, 1 / (this.slots + tuning.firstScatterSlots - least.length));
      n[ABOVE] = (n[ABOVE] as number) + share * (Math.max(0, off) - (n[ABOVE] as number));
      n[SCATTER] = (n[SCATTER] as number) + share * (Math.abs(above) - (n[SCATTER] as number));
    }
    this.judge((this.lost[at] as number) > 0);
    return isLoss;
  }

  /** What is lost stays lost: late blocks that are made up for are no loss. */
  private judge(isLoss: boolean): void {
    const { lost, tuning } = this;
    const grownMs = this.n[GROWN] as number;
    this.slotsSinceLoss = isLoss ? 0 : this.slotsSinceLoss + 1;
    if (this.dropping) {
      if (this.slotsSinceLoss >= tuning.overSlots) this.dropping = false;
      return;
    }
    let losses = 0;
    let sumMs = 0;
    // what is jumped over makes the stream seem early
    let keptMs = grownMs;
    for (let i = 0; i < lost.length; i++) {
      if ((lost[i] as number) > 0) losses++;
      sumMs += lost[i] as number;
      keptMs += 2 * (this.jumped[i] as number);
    }
    if (losses < tuning.losses || keptMs < tuning.keptShare * sumMs) return;
    const span = Math.min(lost.length, this.slots) * tuning.slotMs;
    this.dropping = this.captured || keptMs >= tuning.behindShare * span;
  }
}
