/** What follows the screen without being on it: windows of the big display, voice and tone. */
import { type JSX, Show } from 'solid-js';
import { useApp } from '../shared/appScope';

export function Followers(): JSX.Element {
  const { parts, secondScreen, settings } = useApp();
  const { voiceOn, toneOn } = settings.sound;
  return (
    <>
      <Show when={secondScreen.asked() && parts.callOutFeed.here()} keyed>
        {(it) => <it.CallOutFeed />}
      </Show>
      <Show when={(voiceOn() || toneOn()) && parts.sounds.here()} keyed>
        {(it) => <it.Sounds />}
      </Show>
    </>
  );
}
