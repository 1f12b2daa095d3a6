/** A list of the kit page, folded until it is wanted; it stays as it was left when the page is left for a while. */
import type { JSX } from 'solid-js';

const left = new Map<string, boolean>();

/** @param open at first */
export function Fold(props: {
  id: string;
  title: string;
  note?: string;
  open?: boolean;
  children: JSX.Element;
}): JSX.Element {
  return (
    <details
      class="kit-part fold"
      id={props.id}
      open={left.get(props.id) ?? props.open ?? false}
      onToggle={(e) => left.set(props.id, e.currentTarget.open)}
    >
      <summary>
        <h2>{props.title}</h2>
        <span class="quiet">{props.note}</span>
      </summary>
      {props.children}
    </details>
  );
}
