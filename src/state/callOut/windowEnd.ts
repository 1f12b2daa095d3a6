/**
 * The window's end: it follows one meter and keeps to it. It asks every two seconds whether that is still so, so that what
 * is shown of a page that was closed, crashed or hangs is never taken for what is so now. A page that is reloaded is found
 * again; another meter is followed only when a person says so.
 */
import type { CallOutView } from './callOutView';
import { type FromMeter, type FromWindow, type Message, VERSION } from './messages';

export const ASK_MS = 2000;
/** no answer for so long, two asked for in vain: no word from it, ms */
export const SILENT_MS = 5000;

/** `looking`: nothing came yet · `silent`: it doesn't answer · `other-version`: reload one of them */
export type Fate = 'looking' | 'following' | 'silent' | 'closed' | 'other-version';

export interface Followed {
  fate: Fate;
  view: CallOutView | null;
  /** when it was heard last, ms of the clock given; null: never */
  heardMs: number | null;
  /** another meter that is open, while the followed one isn't heard; null: none */
  other: string | null;
}

export interface WindowEndOptions {
  /** the meter that opened it; null: the first that answers */
  meter: string | null;
  post(message: FromWindow): void;
  onChange(followed: Followed): void;
  /** it follows this one from now on */
  onMeter(meter: string): void;
}

export class WindowEnd {
  private meter: string | null;
  private life: string | null = null;
  private have = 0;
  private otherMs = Number.NEGATIVE_INFINITY;
  private followed: Followed = { fate: 'looking', view: null, heardMs: null, other: null };

  constructor(private readonly options: WindowEndOptions) {
    this.meter = options.meter;
  }

  private change(fields: Partial<Followed>): void {
    this.followed = { ...this.followed, ...fields };
    this.options.onChange(this.followed);
  }

  private ask(meter = this.meter): void {
    const { life, have } = this;
    this.options.post({ type: 'ask', version: VERSION, meter, life: this.keeps() ? life : null, have });
  }

  /** It hears its meter, and no other page is let in. */
  private keeps(): boolean {
    return this.life !== null && this.followed.fate === 'following';
  }

  /** To be called every ASK_MS, and when the window is seen again. */
  look(nowMs: number): void {
    const { fate, heardMs, other } = this.followed;
    if (fate === 'following' && heardMs !== null && nowMs - heardMs > SILENT_MS) this.change({ fate: 'silent' });
    if (other !== null && nowMs - this.otherMs > SILENT_MS) this.change({ other: null });
    this.ask();
    if (this.meter !== null && !this.keeps()) this.ask(null);
  }

  hear(message: Message, nowMs: number): void {
    if (message.type === 'ask') return;
    if (message.version !== VERSION) {
      if (message.meter === this.meter) this.change({ fate: 'other-version' });
      return;
    }
    if (this.meter === null && message.type !== 'closed') this.follow(message.meter);
    if (message.meter !== this.meter) {
      this.hearOther(message, nowMs);
      return;
    }
    if (message.type === 'closed') {
      if (message.life === this.life) this.change({ fate: 'closed' });
      return;
    }
    if (message.life !== this.life) {
      // a tab that was duplicated says that it is the same one: the page that is heard is kept
      if (this.keeps()) return;
      this.life = message.life;
      this.have = 0;
      if (message.type !== 'view') this.ask();
    }
    this.take(message, nowMs);
  }

  private take(message: FromMeter, nowMs: number): void {
    if (message.type === 'view') {
      this.have = message.n;
      this.change({ fate: 'following', view: message.view, heardMs: nowMs, other: null });
      return;
    }
    // a view that was missed is asked for with the next look; until it comes the one here isn't what is so now
    const whole = message.type === 'beat' && message.n === this.have;
    if (whole) this.change({ fate: 'following', heardMs: nowMs, other: null });
  }

  private hearOther({ type, meter }: FromMeter, nowMs: number): void {
    if (this.keeps()) return;
    if (type === 'closed') {
      if (meter === this.followed.other) this.change({ other: null });
      return;
    }
    this.otherMs = nowMs;
    if (meter !== this.followed.other) this.change({ other: meter });
  }

  /** A person takes this one instead, or it is the first that answered. */
  follow(meter: string): void {
    this.meter = meter;
    this.life = null;
    this.have = 0;
    this.change({ fate: 'looking', view: null, heardMs: null, other: null });
    this.options.onMeter(meter);
    this.ask();
  }
}
