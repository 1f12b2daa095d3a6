/** The call-out view: the action, its number, the value before. To be read across a control room and said over talkback. */
import { type JSX, Show } from 'solid-js';
import { pathCm } from '../state/words';
import { Flags } from './Answer';
import { useApp } from './app';
import { dataNumber, pathText } from './format';
import { holdFocus } from './holdFocus';
import { Key } from './Key';
import { StateMark } from './Marks';
import { OffsetInForce } from './Offset';
import { Unbroken } from './Unbroken';

export function CallOut(): JSX.Element {
  const { meter, settings, setCallOut } = useApp();
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);
  const text = (): string => meter.advice()?.callOut ?? 'Waiting';
  // "can't tell" and why is the call itself already
  const sureness = (): string => {
    const said = meter.advice()?.sureness ?? '';
    return said.toLowerCase() === text().toLowerCase() ? '' : said;
  };
  const now = (): string => {
    const r = meter.reading();
    if (!r || r.delaySamples === null || r.polarity === null) return '';
    const seconds = r.delaySamples / r.sampleRate;
    return `${r.polarity}, ${pathText(pathCm(seconds, settings.temperatureC()))}`;
  };
  const before = (): string => {
    const value = meter.previous();
    return value === null ? '' : `${value.polarity}, ${pathText(value.pathCm)}`;
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
          state={meter.reading()?.state ?? null}
          have={meter.reading()?.hitsPooled ?? 0}
          need={meter.reading()?.hitsNeeded ?? 4}
        />
        <Show
          when={now()}
          fallback={
            <p>
              <Unbroken text={sureness()} />
            </p>
          }
        >
          <p>
            <span class="quiet">now</span> <Unbroken text={now()} />
          </p>
        </Show>
        <Show when={before()}>
          <p>
            <span class="quiet">before</span> <Unbroken text={before()} />
          </p>
        </Show>
      </div>
      <button type="button" class="press call-close" data-command="back" onClick={() => setCallOut(false)}>
        Back to the sheet <Key of="back" />
      </button>
    </div>
  );
}
