/** The call-out view: the action, its number, the value before. To be read across a control room and said over talkback. */
import { type JSX, Show } from 'solid-js';
import { micNames } from '../../advice/words/wording';
import { pathCm } from '../../reading/acoustics';
import { pathFigure } from '../../text/length';
import { dataNumber } from '../../text/number';
import { Flags } from '../meter/Answer';
import { OffsetInForce } from '../meter/OffsetInForce';
import { useApp } from '../shared/appScope';
import { holdFocus } from '../shared/holdFocus';
import { Key } from '../shared/Key';
import { StateMark } from '../shared/Marks';
import { Unbroken } from '../shared/Unbroken';
import './callOut.css';

export function CallOut(): JSX.Element {
  const { meter, settings, parts, setOver } = useApp();
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);
  const kit = parts.kit.here;
  const patching = (): boolean => kit()?.round.patching() ?? false;
  // what is still plugged in isn't the pair that comes next
  const text = (): string => (patching() ? `Patch ${kit()?.round.title()}` : (meter.advice()?.callOut ?? 'Waiting'));
  // "can't tell" and why is the call itself already
  const sureness = (): string => {
    const said = meter.advice()?.sureness ?? '';
    return said.toLowerCase() === text().toLowerCase() ? '' : said;
  };
  const now = (): string => {
    const [r, answer] = [meter.reading(), meter.answer()];
    if (!r || answer?.state !== 'measured') return '';
    const seconds = answer.delaySamples / r.sampleRate;
    return `${answer.polarity}, ${pathFigure(pathCm(seconds, settings.temperatureC()), micNames(meter.context()))}`;
  };
  // A and B may have been swapped since: their names of now needn’t be those of then
  const before = (): string => {
    const value = meter.previous();
    return value === null ? '' : `${value.polarity}, ${pathFigure(value.pathCm)}`;
  };
  const size = (): string => {
    const letters = text().length;
    return letters <= 14 ? 'huge' : letters <= 28 ? 'large' : letters <= 56 ? 'mid' : 'small';
  };
  return (
    <div
      class="call-out"
      role="dialog"
      aria-modal="true"
      aria-label="Call-out"
      tabindex="-1"
      ref={panel}
      data-action={meter.advice()?.action ?? ''}
      data-move-cm={dataNumber(meter.advice()?.moveCm)}
      data-previous-path-cm={dataNumber(meter.previous()?.pathCm)}
    >
      <p class="call-flags">
        <Flags />
        <OffsetInForce flag />
      </p>
      <Show when={meter.problem()}>
        {(problem) => (
          <p class="call-problem" role="alert" data-problem={problem().code}>
            {problem().text}
          </p>
        )}
      </Show>
      <p class={`call-text ${size()}`}>
        <Unbroken text={text()} />
      </p>
      <div class="call-values">
        <StateMark
          state={meter.answer()?.state ?? null}
          have={meter.answer()?.hitsPooled ?? 0}
          need={meter.reading()?.hitsNeeded ?? 4}
        />
        <Show
          when={!patching() && now()}
          fallback={
            <p>
              <Unbroken text={patching() ? '' : sureness()} />
            </p>
          }
        >
          <p>
            <span class="quiet">now</span> <Unbroken text={now()} />
          </p>
        </Show>
        <Show when={!patching() && before()}>
          <p>
            <span class="quiet">before</span> <Unbroken text={before()} />
          </p>
        </Show>
      </div>
      <Show when={kit()} keyed>
        {(it) => <it.RoundCall />}
      </Show>
      <button type="button" class="press call-close" data-command="back" onClick={() => setOver(null)}>
        Back to the sheet <Key of="back" />
      </button>
    </div>
  );
}
