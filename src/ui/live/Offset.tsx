/** The input offset, measured on a page of its own. */
import { type JSX, onMount, Show } from 'solid-js';
import { offsetTakenOut } from '../meter/OffsetInForce';
import { useApp } from '../shared/appScope';

const SIGNS = { listening: '◇', refused: '△', sure: '◆' } as const;

export function Offset(): JSX.Element {
  const { meter } = useApp();
  let title: HTMLHeadingElement | undefined;
  onMount(() => title?.focus());
  const found = () => meter.offsetFinding();
  return (
    <main class="identify" data-offset={found()?.fate}>
      <h1 tabindex="-1" ref={title}>
        Input offset
      </h1>
      <p class="lead">
        Different converters have different latency. Measure the difference once, and it’s corrected in every reading
        with this device at this sample rate.
      </p>
      <ol class="steps">
        <li>
          <b>△ First:</b> monitors off, headphone level down, gains low, phantom checked, drummer stopped; nobody’s ears
          or hands near a drum.
        </li>
        <li>
          Give both inputs the same source: split one mic before the inputs (a condenser: phantom on from one input
          only), or hold the two mics together (a centimetre between them shows as 0.03 ms of offset).
        </li>
        <li>Make at least four short, sharp sounds, a second apart, a metre away: claps, or two sticks.</li>
      </ol>
      <p class="identify-answer" role="status" id="offset-found">
        {SIGNS[found()?.fate ?? 'listening']} {found()?.text}
      </p>
      <div class="presses">
        <button
          type="button"
          class="press strong big"
          data-command="keep-offset"
          disabled={found()?.fate !== 'sure'}
          onClick={() => meter.keepOffset()}
        >
          Correct for it from now on
        </button>
        <button type="button" class="press" data-command="start-over" onClick={() => meter.startOver()}>
          Start over
        </button>
        <Show when={meter.offsetSamples() !== 0}>
          <button type="button" class="press" data-command="remove-offset" onClick={() => meter.removeOffset()}>
            Stop correcting for it
          </button>
        </Show>
        <button type="button" class="press" data-command="end-offset" onClick={() => meter.endOffset()}>
          Back to the meter
        </button>
      </div>
      <Show when={meter.offsetSamples() !== 0}>
        <p class="quiet">In use: {offsetTakenOut(meter)}, except while it’s measured here.</p>
      </Show>
    </main>
  );
}
