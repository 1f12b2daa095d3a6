/** What is set in the meter that a reader must know of, always in words. */
import { For, type JSX, Show } from 'solid-js';
import type { CallOutFlag } from '../../state/callOut/callOutView';
import { secondsText } from '../../text/clock';
import { type AppContext, useApp } from './appScope';
import { oldText } from './oldWords';

const FLAGS = ['invert-b', 'switched-b', 'swapped', 'held', 'notice', 'old', 'last-hit', 'ended', 'sounds'] as const;
type FlagCode = (typeof FLAGS)[number];

/** framed: without knowing it the reading is misread */
const STRONG: ReadonlySet<FlagCode> = new Set(['invert-b', 'old']);

/** @returns empty where it isn't so */
function flagText({ meter, settings, shown }: AppContext, code: FlagCode): string {
  switch (code) {
    case 'invert-b':
      return meter.invertB() ? 'B inverted, in this meter only' : '';
    case 'switched-b':
      return meter.switchedB() ? 'one mic inverted, as on the kit sheet' : '';
    case 'swapped':
      return meter.swapped() ? 'A and B swapped' : '';
    case 'held':
      return meter.held() ? 'Held: the reading is frozen' : '';
    case 'notice':
      return meter.notice();
    case 'old':
      return shown.reading() ? oldText(meter) : '';
    case 'last-hit': {
      const at = meter.run() === 'running' && meter.standsOn()?.state === 'measured' ? meter.lastHitAt() : null;
      return at ? `Newest hit ${secondsText(at)}` : '';
    }
    case 'ended':
      return meter.run() === 'ended' ? 'End of the recording' : '';
    case 'sounds': {
      const { voiceOn, toneOn } = settings.sound;
      if (voiceOn()) return toneOn() ? 'Voice and tone on' : 'Voice on';
      return toneOn() ? 'Tone on' : '';
    }
  }
}

export const flagsNow = (app: AppContext): CallOutFlag[] =>
  FLAGS.flatMap((code) => {
    const text = flagText(app, code);
    return text === '' ? [] : [{ code, text, strong: STRONG.has(code) }];
  });

export function Flags(): JSX.Element {
  const app = useApp();
  return (
    <For each={FLAGS}>
      {(code) => (
        <Show when={flagText(app, code)}>
          {(text) => (
            <span
              class="flag"
              classList={{ 'flag-plain': !STRONG.has(code) }}
              data-flag={code}
              role={code === 'notice' ? 'status' : undefined}
            >
              {text()}
            </span>
          )}
        </Show>
      )}
    </For>
  );
}
