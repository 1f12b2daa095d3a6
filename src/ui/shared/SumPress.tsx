/** A number’s name, pressed to see how the number comes about. */
import type { JSX } from 'solid-js';
import type { SumId } from '../../advice/sums/sumTypes';
import { useApp } from './appScope';
import { leaveKeysToPage } from './ownKeys';

export function SumPress(props: { of: SumId; children: JSX.Element }): JSX.Element {
  const { sum, showSum } = useApp();
  return (
    <button
      type="button"
      class="sum-press"
      data-command="sum"
      data-sum={props.of}
      aria-expanded={sum() === props.of}
      title="How it comes about"
      onClick={(e) => {
        if (e.detail > 0) leaveKeysToPage(e.currentTarget);
        showSum(sum() === props.of ? null : props.of);
      }}
    >
      {props.children}
    </button>
  );
}
