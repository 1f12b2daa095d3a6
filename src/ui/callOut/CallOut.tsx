/** The big display over the meter's page, and the ways from here to a window of its own, to voice and tone. */
import { createSignal, type JSX, Show } from 'solid-js';
import { dataNumber } from '../../text/number';
import { PartOver } from '../parts/PartOver';
import { useApp } from '../shared/appScope';
import { holdFocus } from '../shared/holdFocus';
import { Key } from '../shared/Key';
import { SpokenAnswer } from '../shared/SpokenAnswer';
import { TryAgain } from '../sources/ProblemNote';
import { CallOutFace } from './CallOutFace';
import { createCallOutView } from './createCallOutView';
import { SecondScreen } from './SecondScreen';

export function CallOut(): JSX.Element {
  const { meter, parts, setOver } = useApp();
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);
  const view = createCallOutView();
  const [sounds, setSounds] = createSignal(false);
  return (
    <div
      class="call-out"
      role="dialog"
      aria-modal="true"
      aria-label="Big display"
      tabindex="-1"
      ref={panel}
      data-action={view().action}
      data-old={String(view().old)}
      data-move-cm={dataNumber(view().moveCm)}
      data-previous-path-cm={dataNumber(view().previousPathCm)}
    >
      <CallOutFace
        view={view()}
        recover={<Show when={meter.problem() ?? meter.aside()}>{(problem) => <TryAgain problem={problem()} />}</Show>}
      />
      <SpokenAnswer />
      <div class="call-foot">
        <button type="button" class="press" data-command="voice-and-tone" onClick={() => setSounds(true)}>
          Voice and tone
        </button>
        <SecondScreen />
        <button type="button" class="press call-close" data-command="back" onClick={() => setOver(null)}>
          Back to the meter <Key of="back" />
        </button>
      </div>
      <Show when={sounds()}>
        <PartOver part={parts.sounds} onClose={() => setSounds(false)}>
          {(it) => <it.SoundPanel onClose={() => setSounds(false)} />}
        </PartOver>
      </Show>
    </div>
  );
}
