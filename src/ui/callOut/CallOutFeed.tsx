/** What windows of the big display are shown, posted when it changes; nothing of it runs while there is none. */
import { createEffect, onCleanup } from 'solid-js';
import { useApp } from '../shared/appScope';
import { createCallOutView } from './createCallOutView';

export function CallOutFeed(): null {
  const { secondScreen } = useApp();
  const view = createCallOutView();
  createEffect(() => secondScreen.show(view()));
  onCleanup(() => secondScreen.rest());
  return null;
}
