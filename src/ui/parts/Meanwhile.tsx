/** In the place of a part of the page that isn’t here: a quiet word, or why it can’t be had and the way to try again. */
import { type JSX, Show } from 'solid-js';
import { PartProblem } from './PartProblem';
import type { Part } from './part';
import './parts.css';

export interface MeanwhileProps {
  part: Part<unknown>;
}

export function Meanwhile(props: MeanwhileProps): JSX.Element {
  return (
    <div class="meanwhile" data-part={props.part.fate()}>
      <Show
        when={props.part.missing()}
        fallback={
          <p class="quiet" role="status">
            {props.part.name} is being loaded …
          </p>
        }
      >
        <PartProblem part={props.part} />
      </Show>
    </div>
  );
}
