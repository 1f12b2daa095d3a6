/** What could be done, each whole with what it gains: the recommended one first, another can be taken instead. */
import { For, type JSX, Show } from 'solid-js';
import type { Alternative } from '../../advice/plan/alternatives';
import { alternativesShown } from '../../advice/plan/shown';
import { actionText } from '../../advice/words/actionText';
import { BAND_COUNT, BANDS } from '../../reading/bands';
import { bandText } from '../../text/frequency';
import { gainFigure } from '../../text/level';
import { NO_VALUE } from '../../text/number';
import { useApp } from '../shared/appScope';
import { SumPress } from '../shared/SumPress';

const gain = (db: number | null): string => (db === null ? NO_VALUE : gainFigure(db));
/** what a move is mostly for */
const TOP_BAND = BAND_COUNT - 1;
const TOP = BANDS[TOP_BAND] as (typeof BANDS)[number];

export function Alternatives(): JSX.Element {
  const { meter } = useApp();
  const plan = (): readonly Alternative[] => meter.advice()?.plan ?? [];
  const take = ({ invertB, delayMs, moveCm }: Alternative): void => meter.chooseAction({ invertB, delayMs, moveCm });
  return (
    <Show when={plan().length > 1}>
      <fieldset class="gains">
        <legend class="unseen">Options, and what A+B gains with each, A and B at equal level</legend>
        <p class="gains-head">
          <span aria-hidden="true">A+B, dB</span>
          <span>
            <SumPress of="low-octave">low octave</SumPress>
          </span>
          <span>
            <SumPress of="overall">overall</SumPress>
          </span>
          <span>
            <SumPress of="upper-band">{bandText(TOP.lowHz, TOP.highHz)}</SumPress>
          </span>
        </p>
        <For each={alternativesShown(plan())}>
          {(one, i) => (
            <button
              type="button"
              class="gains-row"
              data-command={i() === 0 ? 'taken' : 'take-other'}
              aria-pressed={i() === 0}
              title={i() === 0 ? 'Recommended' : 'Use this instead'}
              onClick={() => take(one)}
            >
              <span>{actionText(one, meter.context())}</span>
              <span>
                {gain(one.lowDb)}
                <span class="unseen"> in the drum’s low octave,</span>
              </span>
              <span>
                {gain(one.allDb)}
                <span class="unseen"> overall,</span>
              </span>
              <span>
                {gain(one.bandsDb[TOP_BAND] ?? null)}
                <span class="unseen"> at {bandText(TOP.lowHz, TOP.highHz)}</span>
              </span>
            </button>
          )}
        </For>
        <Show when={meter.advice()?.chosen}>
          <button type="button" class="press" data-command="take-best" onClick={() => meter.chooseAction(null)}>
            Back to recommended
          </button>
        </Show>
      </fieldset>
    </Show>
  );
}
