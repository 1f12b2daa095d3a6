/** Try it: B inverted, moved or trimmed by hand, and what the sum would make of it. */
import { type JSX, Show } from 'solid-js';
import { gainedByText, REAL_MOVE, triedText, tryText } from '../../advice/words/tryWords';
import { dataNumber } from '../../text/number';
import { useApp } from '../shared/appScope';
import { createFit } from '../shared/createFit';
import { holdFocus } from '../shared/holdFocus';
import { Key } from '../shared/Key';
import { Unbroken } from '../shared/Unbroken';
import { createTry } from './createTry';
import { TryBands } from './TryBands';
import { TryChoices } from './TryChoices';
import { TryCurve } from './TryCurve';
import { TryListen } from './TryListen';
import { TrySettings } from './TrySettings';
import { TrySum } from './TrySum';
import { TrySums } from './TrySums';
import './tryOut.css';

export function TryOut(props: { onClose: () => void }): JSX.Element {
  const { meter, trying, shown, sum } = useApp();
  const it = createTry();
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);
  const said = (): string => {
    const sums = it.sums();
    return sums ? tryText(trying.tried(), sums, meter.context()) : it.why();
  };
  const spoken = (): string => {
    const sums = it.sums();
    return sums ? `${triedText(trying.tried(), meter.context())}: ${gainedByText(sums)}` : '';
  };
  return (
    <div
      class="try"
      role="dialog"
      aria-modal="true"
      aria-label="Try it"
      tabindex="-1"
      ref={panel}
      data-invert-b={String(trying.tried().invertB)}
      data-move-cm={dataNumber(trying.tried().moveCm, 1)}
      data-delay-ms={dataNumber(trying.tried().delayMs, 3)}
      data-trim-db={dataNumber(trying.tried().trimDb, 1)}
      data-low-db={dataNumber(it.sums()?.low.gainDb, 3)}
      data-all-db={dataNumber(it.sums()?.all.gainDb, 3)}
    >
      <div class="try-head">
        <div class="try-said" ref={createFit}>
          <h2 id="try-said">
            <span class="try-name">Try it:</span> <Unbroken text={said()} />
          </h2>
        </div>
        <button type="button" class="press" data-command="back" onClick={() => props.onClose()}>
          Back to the meter <Key of="back" />
        </button>
      </div>
      <p class="unseen" role="status">
        {spoken()}
      </p>
      <Show when={it.reading() !== null}>
        <div class="try-body">
          <div class="try-set">
            <TrySettings />
            <TryChoices it={it} />
            <TryBands it={it} />
          </div>
          <TrySum it={it} />
          <TryCurve it={it} />
        </div>
      </Show>
      <Show when={sum() !== null}>
        <TrySums it={it} />
      </Show>
      {/* a reading that pauses doesn't silence it; mics that are being patched do */}
      <Show when={!shown.patching()}>
        <TryListen it={it} />
      </Show>
      <Show when={it.reading() !== null}>
        <p class="try-foot">
          {REAL_MOVE}
          <Show when={meter.invertB()}>
            {' '}
            “Invert B here” is on at the meter; on this page everything counts from B as it comes in.
          </Show>
        </p>
      </Show>
    </div>
  );
}
