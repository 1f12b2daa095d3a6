/** A part of the page that can’t be had: what to look at, and the way to try again. */
import { type JSX, onCleanup } from 'solid-js';
import { ProblemMark } from '../shared/Marks';
import { handFocusOn } from './handFocusOn';
import type { Part } from './part';

export function PartProblem(props: { part: Part<unknown> }): JSX.Element {
  let note: HTMLDivElement | undefined;
  onCleanup(() => handFocusOn(note));
  return (
    <div class="problem" role="alert" data-problem="part-missing" ref={note}>
      <ProblemMark />
      <p>
        {props.part.name} could not be loaded from this page’s server; check that the server is running, then try again.
        If that doesn’t help, reload the page.
      </p>
      <button type="button" class="press strong" data-command="fetch-part" onClick={() => void props.part.fetch()}>
        {props.part.fate() === 'again' ? 'Trying …' : 'Try again'}
      </button>
    </div>
  );
}
