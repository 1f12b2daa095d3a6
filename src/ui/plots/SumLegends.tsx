/** What the lines of the sum over frequency are: now, the other one, and what that gains. */
import type { JSX } from 'solid-js';

/** How a line of a plot looks. A drawing, not a border: those are dimmed by a browser that darkens pages. */
export const LegendLine = (props: { of: 'solid' | 'thin' | 'dash' }): JSX.Element => (
  <svg class={`line line-${props.of}`} viewBox="0 0 26 4" aria-hidden="true">
    <path d="M0 2H26" />
  </svg>
);

/** @param props.other what the dashed line is @param props.off there is none now */
export function SumLegends(props: { other: string; otherTitle?: string | undefined; off: boolean }): JSX.Element {
  return (
    <span class="legends">
      <span class="legend">
        <LegendLine of="solid" /> now
      </span>
      <span class="legend" classList={{ off: props.off }} title={props.otherTitle}>
        <LegendLine of="dash" /> {props.other}
      </span>
      <span class="legend" classList={{ off: props.off }}>
        <i class="swatch" /> gain
      </span>
    </span>
  );
}
