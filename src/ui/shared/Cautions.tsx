/** The cautions: at first start, and in the help at any time. */
import { For, type JSX, Show } from 'solid-js';
import { useApp } from './appScope';
import './cautions.css';

/** Beside whatever makes the page audible. */
export const HEADPHONES = 'Closed-back headphones, level down';

/** Before anything is plugged in or patched. */
const PATCH: readonly string[] = [
  'Phantom power off before you plug or patch a ribbon mic or a speaker used as a mic.',
  'Monitors down.',
  'Drummer stopped.',
];

export function PatchCautions(): JSX.Element {
  return (
    <ul class="patch-cautions" aria-label="Before you patch">
      <For each={PATCH}>{(text) => <li>{text}</li>}</For>
    </ul>
  );
}

export function CautionList(): JSX.Element {
  return (
    <ul class="caution-list">
      <li>
        <b>Ears.</b> A drum close by is loud enough to harm hearing within minutes. Wear hearing protection, even if
        you’re only holding a mic.
      </li>
      <li>
        <b>Hands and head.</b> Stop the drummer before you reach in. Move the stand, step away, say that you’re clear,
        then have the drum hit again.
      </li>
      <li>
        <b>Headphones.</b> Closed-back only, with the level down before you put them on. Never use monitors with open
        mics: they feed back.
      </li>
      <li>
        <b>Phantom power.</b> It can damage a ribbon mic or a speaker used as a mic. Check that it’s off, and check the
        wiring, before you plug in.
      </li>
      <li>
        <b>House rules, local codes and the qualified people on site</b> come first.
      </li>
    </ul>
  );
}

/** Shown until acknowledged once; after that one line that opens it again. */
export function FirstCautions(): JSX.Element {
  const { settings } = useApp();
  return (
    <section class="cautions" aria-labelledby="cautions-title">
      <Show
        when={!settings.cautionsSeen()}
        fallback={
          <details>
            <summary id="cautions-title">Cautions: ears, hands, headphones, phantom power</summary>
            <CautionList />
          </details>
        }
      >
        <h2 id="cautions-title">Before you work beside a drum</h2>
        <CautionList />
        <button
          type="button"
          class="press strong"
          data-command="acknowledge"
          onClick={() => settings.setCautionsSeen()}
        >
          I have read this
        </button>
      </Show>
    </section>
  );
}
