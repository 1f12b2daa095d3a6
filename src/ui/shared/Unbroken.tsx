/** A sentence whose numbers keep to one line with their units. The text itself stays as it was given. */
import { For, type JSX } from 'solid-js';
import { numberRuns } from '../../text/sentence';

export function Unbroken(props: { text: string }): JSX.Element {
  return (
    <For each={numberRuns(props.text)}>{(run, i) => (i() % 2 === 1 ? <span class="unbroken">{run}</span> : run)}</For>
  );
}
