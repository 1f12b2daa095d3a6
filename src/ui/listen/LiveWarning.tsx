/** Before open mics are heard: what can go wrong, to be confirmed each time. */
import { type JSX, onMount } from 'solid-js';
import { closeTo } from './closeTo';

export function LiveWarning(props: { onConfirm: () => void; onClose: () => void }): JSX.Element {
  let dialog: HTMLDialogElement | undefined;
  let confirmed = false;
  onMount(() => dialog?.showModal());
  return (
    <dialog
      class="live-warning"
      ref={dialog}
      aria-labelledby="live-warning-title"
      onClose={() => confirmed || props.onClose()}
      // the page's keys are off meanwhile
      onKeyDown={(e) => e.stopPropagation()}
    >
      <h2 id="live-warning-title">Open mics: headphones only</h2>
      <ul>
        <li>Closed headphones, level down before you put them on.</li>
        <li>Never loudspeakers: with open mics they feed back, and that can harm hearing and gear.</li>
        <li>The level starts at zero. What keeps rising is muted, but don’t rely on it.</li>
        <li>It comes a little late, so don’t play along to it.</li>
      </ul>
      <div class="bar">
        <button
          type="button"
          class="press strong"
          data-command="confirm-live"
          onClick={() => {
            if (!dialog) return;
            confirmed = true;
            const level = dialog.parentElement?.querySelector<HTMLElement>('[data-field="listen-level"]');
            closeTo(dialog, () => props.onConfirm(), level);
          }}
        >
          Closed headphones are on: hear live
        </button>
        <button type="button" class="press" data-command="refuse-live" onClick={() => dialog?.close()}>
          Not now
        </button>
      </div>
    </dialog>
  );
}
