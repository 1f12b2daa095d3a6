/** A sentence whose numbers’ names are pressed to see how the numbers come about. */
import { createMemo, For, type JSX, Show } from 'solid-js';
import type { SumLine } from '../../text/sum';
import { SumPress } from '../shared/SumPress';
import { Unbroken } from '../shared/Unbroken';

interface Part {
  text: string;
  /** of its sum; null: it is no name of a number */
  id: string | null;
}

function partsOf({ text, sums }: SumLine): Part[] {
  const parts: Part[] = [];
  let rest = text;
  for (const { name, id } of sums) {
    const at = rest.indexOf(name);
    if (at < 0) continue;
    parts.push({ text: rest.slice(0, at), id: null }, { text: name, id });
    rest = rest.slice(at + name.length);
  }
  return [...parts, { text: rest, id: null }];
}

export function SumSentence(props: { line: SumLine }): JSX.Element {
  // what says the same stays as it is, and keeps the focus
  const same = { equals: (one: unknown, other: unknown) => JSON.stringify(one) === JSON.stringify(other) };
  const parts = createMemo(() => partsOf(props.line), [], same);
  return (
    <For each={parts()}>
      {({ text, id }) => (
        <Show when={id} fallback={<Unbroken text={text} />}>
          {(of) => <SumPress of={of()}>{text}</SumPress>}
        </Show>
      )}
    </For>
  );
}
