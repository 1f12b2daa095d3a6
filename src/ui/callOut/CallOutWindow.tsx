/** The big display in a window of its own: it shows what one meter's page shows, and says when it no longer knows. */
import { createSignal, type JSX, Match, onCleanup, onMount, Show, Switch } from 'solid-js';
import { CHANNEL, messageOf, WINDOW_PARAMETER } from '../../state/callOut/messages';
import { ASK_MS, type Followed, WindowEnd } from '../../state/callOut/windowEnd';
import type { Settings } from '../../state/settings/settings';
import { secondsText } from '../../text/clock';
import { dataNumber } from '../../text/number';
import { createLights } from '../page/createLights';
import { listen } from '../page/listen';
import { StateMark } from '../shared/Marks';
import { Unbroken } from '../shared/Unbroken';
import { CallOutFace, callSize } from './CallOutFace';
import { FullScreen } from './FullScreen';
import './callOut.css';

/** Instead of the call, so that nobody across the room takes an old one for what is so now. */
const LARGE: Record<Exclude<Followed['fate'], 'following'>, string> = {
  looking: 'Waiting for the meter',
  silent: 'No word from the meter',
  closed: 'The meter’s page is closed',
  'other-version': 'Reload this window',
};

const NEXT: typeof LARGE = {
  looking: 'Keep the meter’s page open in this browser.',
  silent: 'Its page doesn’t answer. This window carries on as soon as it does.',
  closed: 'Reload or reopen that tab, and this window carries on.',
  'other-version': 'The meter’s page is another version of Crosshead.',
};

function createFollowed(meter: string) {
  const [followed, setFollowed] = createSignal<Followed>({ fate: 'looking', view: null, heardMs: null, other: null });
  const channel = new BroadcastChannel(CHANNEL);
  const end = new WindowEnd({
    meter: meter || null,
    post: (message) => channel.postMessage(message),
    onChange: setFollowed,
    // a reload of this window follows the same one
    onMeter: (id) => history.replaceState(null, '', `?${WINDOW_PARAMETER}=${id}`),
  });
  const look = (): void => end.look(Date.now());
  listen<MessageEvent>(channel, 'message', ({ data }) => {
    const message = messageOf(data);
    if (message) end.hear(message, Date.now());
  });
  listen(document, 'visibilitychange', look);
  const timer = setInterval(look, ASK_MS);
  onCleanup(() => {
    clearInterval(timer);
    channel.close();
  });
  onMount(look);
  return { followed, follow: (other: string) => end.follow(other) };
}

export function CallOutWindow(props: { meter: string; settings: Settings }): JSX.Element {
  const { followed, follow } = createFollowed(props.meter);
  const view = () => followed().view;
  const live = () => (followed().fate === 'following' ? view() : null);
  createLights({ lights: () => view()?.lights ?? props.settings.lights() });
  document.title = 'Big display: Crosshead';
  return (
    <main
      class="call-out call-window"
      data-fate={followed().fate}
      data-old={String(live() === null || view()?.old === true)}
      data-action={live()?.action ?? ''}
      data-move-cm={dataNumber(live()?.moveCm)}
    >
      <h1 class="unseen">Big display</h1>
      <Switch fallback={<NotNow followed={followed()} />}>
        <Match when={live()}>{(now) => <CallOutFace view={now()} />}</Match>
      </Switch>
      <div class="call-foot">
        <Show when={view()?.from}>{(from) => <p class="quiet">Follows one meter: {from()}</p>}</Show>
        <Show when={followed().other}>
          {(other) => (
            <button type="button" class="press strong" data-command="follow-other" onClick={() => follow(other())}>
              Follow the meter that is open in another tab
            </button>
          )}
        </Show>
        <FullScreen />
      </div>
    </main>
  );
}

/** Nothing is known of now: what was shown last is small, with its time, and called old. */
function NotNow(props: { followed: Followed }): JSX.Element {
  const fate = () => props.followed.fate as keyof typeof LARGE;
  const was = (): string => {
    const { view, heardMs } = props.followed;
    return view === null || heardMs === null ? '' : `Old, from ${secondsText(new Date(heardMs))}: ${view.text}`;
  };
  return (
    <>
      <p class={`call-text call-notice ${callSize(LARGE[fate()])}`} role="status">
        {LARGE[fate()]}
      </p>
      <div class="call-values">
        <StateMark state={null} have={0} need={4} old={fate() !== 'looking'} />
        <p>{NEXT[fate()]}</p>
      </div>
      <p class="call-was quiet">
        <Unbroken text={was()} />
      </p>
    </>
  );
}
