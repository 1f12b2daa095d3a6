/** The meter's end of the big display's windows: what is shown is posted when it changes, and only while a window asks. */
import type { CallOutView } from './callOutView';
import { type FromMeter, type Message, VERSION } from './messages';

/** a window that hasn't asked for so long is gone, ms: they ask every two seconds */
export const ASKED_MS = 7000;

export interface MeterEndOptions {
  /** the tab, and this page in it */
  meter: string;
  life: string;
  post(message: FromMeter): void;
  /** a window asks for what is shown */
  onAsked(): void;
}

export class MeterEnd {
  private n = 0;
  private view: CallOutView | null = null;
  private posted = '';

  constructor(private readonly options: MeterEndOptions) {}

  private post(
    what: { type: 'here' | 'closed' } | { type: 'beat'; n: number } | { type: 'view'; view: CallOutView; n: number },
  ) {
    const { meter, life, post } = this.options;
    post({ version: VERSION, meter, life, ...what });
  }

  /** The page is open: windows that followed it before its reload find it by that. */
  open(): void {
    this.post({ type: 'here' });
  }

  close(): void {
    this.post({ type: 'closed' });
  }

  hear(message: Message): void {
    if (message.type !== 'ask' || message.version !== VERSION) return;
    const { meter, life } = this.options;
    if (message.meter === null) {
      this.post({ type: 'here' });
      return;
    }
    if (message.meter !== meter || (message.life !== null && message.life !== life)) return;
    this.options.onAsked();
    const { view, n } = this;
    // what is asked for is being fetched
    if (view === null) this.post({ type: 'here' });
    else if (message.life === life && message.have === n) this.post({ type: 'beat', n });
    else this.post({ type: 'view', n, view });
  }

  /** What is shown now: posted where it isn't what was posted last. */
  show(view: CallOutView): void {
    const text = JSON.stringify(view);
    if (text === this.posted) return;
    this.posted = text;
    this.view = view;
    this.n++;
    this.post({ type: 'view', n: this.n, view });
  }

  /** Nobody looks any more: the next window is shown what is true then. */
  rest(): void {
    this.view = null;
    this.posted = '';
  }
}
