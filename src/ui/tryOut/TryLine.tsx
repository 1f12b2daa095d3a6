import type { JSX } from 'solid-js';

/** How a line of a plot looks. A drawing, not a border: those are dimmed by a browser that darkens pages. */
export const TryLine = (props: { of: 'solid' | 'thin' | 'dash' }): JSX.Element => (
  <svg class={`line line-${props.of}`} viewBox="0 0 26 4" aria-hidden="true">
    <path d="M0 2H26" />
  </svg>
);
