/** In the place of a part of the page that isn’t here: a quiet word, or why it can’t be had and the way to try again. */
import { type JSX, Show } from 'solid-js';
import { PartProblem } from './PartProblem';
import type { Part } from './part';
import './parts.css';

export interface MeanwhileProps {
  part: Part<unknown>;
  /** what it is, as a sentence begins with it: "The kit sheet" */
  name: string;
}

export function Meanwhile(props: MeanwhileProps): JSX.Element {
  return (
    <div class="meanwhile" data-part={props.part.fate()}>
      <Show
        when={props.part.missing()}
        fallback={
          <p class="quiet" role="status">
            {props.name} is being loaded …
          </p>
        }
      >
        <PartProblem part={props.part} name={props.name} />
      </Show>
    </div>
  );
}
