/** All together, beside the drawing: what to do in a few plain sentences, and what to watch out for. */
import { For, type JSX, Show } from 'solid-js';
import { Unbroken } from '../shared/Unbroken';

export function AllTogether(props: {
  /** null: being worked out */
  sentences: readonly string[] | null;
  doubts: readonly string[];
}): JSX.Element {
  return (
    <section class="kit-part together" aria-labelledby="all-together">
      <h2 id="all-together">All together</h2>
      <Show when={props.sentences} fallback={<p role="status">Working out the whole kit …</p>}>
        {(list) => (
          <ul class="sentences plain">
            <For each={list()}>
              {(text) => (
                <li>
                  <Unbroken text={text} />
                </li>
              )}
            </For>
          </ul>
        )}
      </Show>
      <Show when={props.doubts.length > 0}>
        <h3 id="doubts-title">Watch out for</h3>
        <ul class="sentences">
          <For each={props.doubts}>{(text) => <li>{text}</li>}</For>
        </ul>
      </Show>
    </section>
  );
}
