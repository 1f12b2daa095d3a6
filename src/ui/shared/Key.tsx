/** A visible key hint; the button it stands in names the key for assistive technology. */
import { type JSX, Show } from 'solid-js';
import { useApp } from './appScope';
import { type Command, KEY_OF } from './keys';

export function Key(props: { of: Command }): JSX.Element {
  const { settings } = useApp();
  return (
    <Show when={settings.keysOn() || props.of === 'back'}>
      <span class="key" aria-hidden="true">
        {KEY_OF[props.of]}
      </span>
    </Show>
  );
}
