/** How the numbers of a page come about, one at a time: formula, what goes in, what comes out, source. */
import { createMemo, For, type JSX, onMount, Show } from 'solid-js';
import { NO_VALUE } from '../../text/number';
import type { Sum } from '../../text/sum';
import { useApp } from '../shared/appScope';
import { Key } from '../shared/Key';
import './sums.css';

/**
 * @param props.sums of all numbers of the page; none: there is nothing to work out
 * @param props.of whose they are, where the page has more than one
 */
export function SumsPanel(props: { sums: readonly Sum[]; of?: string }): JSX.Element {
  const { sum, showSum } = useApp();
  // readings come forty times a second: what says the same stays as it is
  const same = { equals: (one: unknown, other: unknown) => JSON.stringify(one) === JSON.stringify(other) };
  const sums = createMemo<readonly Sum[]>(() => props.sums, [], same);
  const names = createMemo(() => sums().map(({ id, name }) => ({ id, name })), [], same);
  const chosen = (): Sum | null => sums().find(({ id }) => id === sum()) ?? sums()[0] ?? null;
  let select: HTMLSelectElement | undefined;
  // once, as it comes up: what is typed elsewhere later keeps the focus
  onMount(() => select?.focus());
  return (
    <aside class="sums" aria-labelledby="sums-title" data-sum={chosen()?.id ?? ''}>
      <div class="sums-head">
        <h2 id="sums-title">How it comes about</h2>
        <button type="button" class="press" data-command="close-sums" onClick={() => showSum(null)}>
          Close <Key of="back" />
        </button>
      </div>
      <Show when={props.of}>{(of) => <p class="sums-of">{of()}</p>}</Show>
      <Show when={chosen()} fallback={<p>No reading yet: there’s nothing to work out.</p>}>
        {(it) => (
          <>
            <select
              id="sums-number"
              aria-label="Which number"
              ref={select}
              onChange={(e) => showSum(e.currentTarget.value)}
            >
              <For each={names()}>
                {({ id, name }) => (
                  <option value={id} selected={id === it().id}>
                    {name}
                  </option>
                )}
              </For>
            </select>
            <p class="sums-formula">{it().formula}</p>
            <p class="sums-worked" aria-live="off">
              {it().worked ?? `${NO_VALUE} There’s no such number now.`}
            </p>
            <dl class="sums-inputs">
              <For each={it().inputs}>
                {({ symbol, is, value }) => (
                  <div>
                    <dt>
                      <Show when={symbol !== ''}>
                        <b class="sums-symbol">{symbol}</b>{' '}
                      </Show>
                      {is}
                    </dt>
                    <dd>{value}</dd>
                  </div>
                )}
              </For>
            </dl>
            <Show when={it().note}>{(note) => <p>{note()}</p>}</Show>
            <p class="sums-source">
              <b>Source:</b> {it().source}
            </p>
          </>
        )}
      </Show>
    </aside>
  );
}
