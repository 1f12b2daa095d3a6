/** All together, beside the drawing: what to do in a few plain sentences, and what to watch out for. */
import { For, type JSX, Show } from 'solid-js';
import type { SumLine } from '../../text/sum';
import { SumSentence } from '../sums/SumSentence';

export function AllTogether(props: {
  /** null: being worked out */
  sentences: readonly SumLine[] | null;
  doubts: readonly SumLine[];
}): JSX.Element {
  return (
    <section class="kit-part together" aria-labelledby="all-together">
      <h2 id="all-together">All together</h2>
      <Show when={props.sentences} fallback={<p role="status">Working out the whole kit …</p>}>
        {(list) => (
          <ul class="sentences plain">
            <For each={list()}>
              {(line) => (
                <li>
                  <SumSentence line={line} />
                </li>
              )}
            </For>
          </ul>
        )}
      </Show>
      <Show when={props.doubts.length > 0}>
        <h3 id="doubts-title">Watch out for</h3>
        <ul class="sentences">
          <For each={props.doubts}>
            {(line) => (
              <li>
                <SumSentence line={line} />
              </li>
            )}
          </For>
        </ul>
      </Show>
    </section>
  );
}
