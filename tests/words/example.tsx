/** What the extraction of sentences is tried on; nothing runs it. */
import { type JSX, Show } from 'solid-js';

type State = 'measured' | 'unclear';

interface Facts {
  state: State;
  names: string[];
}

export function complain(empty: boolean): never {
  throw new RangeError(`the input is ${empty ? 'empty' : 'too long'}`);
}

export function nothingOpen({ names }: Facts): string {
  if (names.length === 0) throw new TypeError('some-code');
  return `Nothing is open: choose one of ${names.join(', ')}.`;
}

export function Example(props: { facts: Facts; n: number; onMove: (state: State) => void }): JSX.Element {
  const agree = (): string => `${props.n} of ${props.facts.names.includes('B') ? 'hits' : 'strokes'} agree`;
  return (
    <section class="example wide" data-state={props.facts.state} aria-label="B in words">
      <button type="button" title={`Move ${agree()} up`} onClick={() => props.onMove('unclear')}>
        Move <b>{props.n}</b> closer to the drum, then {agree()}.
      </button>
      <Show when={props.facts.state === 'measured'}>
        <p class={props.n > 1 ? 'two parts' : 'one part'}>measure again</p>
      </Show>
      <p>
        <b>Ears.</b> Step back. <kbd class="key">K</kbd>
      </p>
      {props.n > 0 ? props.n : 'no value'}
    </section>
  );
}
