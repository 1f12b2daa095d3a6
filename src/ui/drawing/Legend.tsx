/** What the drawing's lines and shapes mean, and how to use it. */
import type { JSX } from 'solid-js';

function Sample(props: { look: string; text: string }): JSX.Element {
  return (
    <li>
      <svg class="kit-drawing sample" viewBox="0 0 34 12" aria-hidden="true">
        <g class={`drawn-pair is-${props.look}`}>
          <path class="drawn-line" d="M1 6H33" />
        </g>
      </svg>
      {props.text}
    </li>
  );
}

function InvertedSample(): JSX.Element {
  return (
    <li>
      <svg class="kit-drawing sample" viewBox="0 0 34 12" aria-hidden="true">
        <circle class="drawn-ring" cx="17" cy="6" r="4" />
        <path class="drawn-inverted" d="M19.8 3.2L22.5 0.5M14.2 8.8L11.5 11.5" />
      </svg>
      switch inverted
    </li>
  );
}

export function Legend(): JSX.Element {
  return (
    <figcaption class="picture-key">
      <ul>
        <Sample look="solid" text="certain" />
        <Sample look="dashed" text="uncertain" />
        <Sample look="dotted" text="not measured" />
        <li>▸ to do</li>
        <li>✓ nothing to do</li>
        <InvertedSample />
      </ul>
      <p id="picture-keys">
        Press a line or a mic to go to its pair. Drag a mic or a drum to its place, or use the arrow keys.
      </p>
    </figcaption>
  );
}
