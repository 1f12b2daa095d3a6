/** What can be tried with one press: the plan's options, and the good places along the move. */
import { For, type JSX, Show } from 'solid-js';
import { type Alternative, isSame } from '../../advice/plan/alternatives';
import { alternativesShown } from '../../advice/plan/shown';
import type { Spot } from '../../advice/tryOut/moveCurve';
import { actionText } from '../../advice/words/actionText';
import { fullestText, NO_ALIGNED, spotText } from '../../advice/words/tryWords';
import { gainFigure } from '../../text/level';
import { NO_VALUE } from '../../text/number';
import { useApp } from '../shared/appScope';
import type { Try } from './createTry';

const gain = (db: number | null): string => (db === null ? NO_VALUE : gainFigure(db));

export function TryChoices(props: { it: Try }): JSX.Element {
  const { meter, trying } = useApp();
  const isTried = (one: Alternative): boolean => isSame(one, trying.tried()) && trying.tried().trimDb === 0;
  return (
    <>
      <fieldset class="gains try-plan">
        <legend class="unseen">The plan’s options, and what A+B gains with each, A and B at equal level</legend>
        <p class="gains-head" aria-hidden="true">
          <span>The plan’s options</span>
          <span>low octave</span>
          <span>overall</span>
        </p>
        <For each={alternativesShown(props.it.plan())}>
          {(one) => (
            <button
              type="button"
              class="gains-row"
              data-command="try-option"
              aria-pressed={isTried(one)}
              onClick={() => trying.take({ invertB: one.invertB, delayMs: one.delayMs, moveCm: one.moveCm })}
            >
              <span>{actionText(one, meter.context())}</span>
              <span>
                {gain(one.lowDb)}
                <span class="unseen"> dB in the drum’s low octave,</span>
              </span>
              <span>
                {gain(one.allDb)}
                <span class="unseen"> dB overall</span>
              </span>
            </button>
          )}
        </For>
      </fieldset>
      <Show when={props.it.spots()}>
        {(spots) => (
          <fieldset class="try-spots">
            <legend class="unseen">Places along the move</legend>
            <SpotPress
              mark="aligned"
              name="First pushes aligned"
              spot={spots().aligned}
              text={
                spots().aligned
                  ? spotText(spots().aligned as Spot, meter.context())
                  : NO_ALIGNED[spots().noAligned ?? 'no-arrival']
              }
            />
            <SpotPress
              mark="fullest-low"
              name="Low octave fullest"
              spot={spots().low.best}
              text={fullestText(spots().low, meter.context())}
            />
            <SpotPress
              mark="fullest-all"
              name="Overall fullest"
              spot={spots().all.best}
              text={fullestText(spots().all, meter.context())}
            />
          </fieldset>
        )}
      </Show>
    </>
  );
}

function SpotPress(props: { mark: string; name: string; spot: Spot | null; text: string }): JSX.Element {
  const { trying } = useApp();
  return (
    <button
      type="button"
      class="try-spot"
      data-command={`try-${props.mark}`}
      disabled={props.spot === null}
      onClick={() => {
        if (props.spot === null) return;
        trying.setInvertB(props.spot.invertB);
        trying.setMoveCm(props.spot.moveCm);
      }}
    >
      <svg class="try-shape" viewBox="0 0 16 16" aria-hidden="true">
        <path d={props.mark === 'aligned' ? 'M8 2L14.5 13.5H1.5Z' : 'M2.5 2.5H13.5V13.5H2.5Z'} />
      </svg>
      <b>{props.name}</b> <span>{props.text}</span>
    </button>
  );
}
