/** The big display's windows, as this page knows them: found by them, and asked for what it shows. */
import { type Accessor, createSignal, onCleanup } from 'solid-js';
import type { CallOutView } from '../../state/callOut/callOutView';
import { CHANNEL, messageOf, WINDOW_PARAMETER } from '../../state/callOut/messages';
import { ASKED_MS, MeterEnd } from '../../state/callOut/meterEnd';
import { listen } from './listen';

export interface SecondScreenLink {
  /** of a window that follows this page; null: the browser has no way between windows */
  address: string | null;
  /** a window asks for what is shown */
  asked: Accessor<boolean>;
  show(view: CallOutView): void;
  /** nobody is shown anything any more */
  rest(): void;
}

const NONE: SecondScreenLink = { address: null, asked: () => false, show: () => undefined, rest: () => undefined };

const randomId = (): string => crypto.getRandomValues(new Uint32Array(2)).join('-');

/** The tab's own, through its reloads. */
function tabId(): string {
  try {
    const kept = sessionStorage.getItem('crosshead.tab');
    if (kept) return kept;
    const made = randomId();
    sessionStorage.setItem('crosshead.tab', made);
    return made;
  } catch {
    // refused: a reload is another meter then, which the window offers to follow
    return randomId();
  }
}

/** To be called where effects have an owner. @param onAsked a window asks, the first time and again */
export function createSecondScreen(onAsked: () => void): SecondScreenLink {
  if (typeof BroadcastChannel === 'undefined') return NONE;
  const [asked, setAsked] = createSignal(false);
  const channel = new BroadcastChannel(CHANNEL);
  const meter = tabId();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const end = new MeterEnd({
    meter,
    life: randomId(),
    post: (message) => channel.postMessage(message),
    onAsked() {
      clearTimeout(timer);
      timer = setTimeout(() => setAsked(false), ASKED_MS);
      setAsked(true);
      onAsked();
    },
  });
  listen<MessageEvent>(channel, 'message', ({ data }) => {
    const message = messageOf(data);
    if (message) end.hear(message);
  });
  listen(window, 'pagehide', () => end.close());
  // brought back as it was left
  listen<PageTransitionEvent>(window, 'pageshow', ({ persisted }) => {
    if (persisted) end.open();
  });
  onCleanup(() => {
    clearTimeout(timer);
    channel.close();
  });
  end.open();
  const address = new URL(location.href);
  address.search = `?${WINDOW_PARAMETER}=${meter}`;
  address.hash = '';
  return { address: address.href, asked, show: (view) => end.show(view), rest: () => end.rest() };
}
