/** The big display: the action, its number, the value before. To be read across a control room and said over talkback. */
import { type JSX, Show } from 'solid-js';
import { PATCH_CALL } from '../../advice/words/cautionWords';
import { micNames } from '../../advice/words/wording';
import { pathText } from '../../text/length';
import { dataNumber } from '../../text/number';
import { Flags } from '../meter/Answer';
import { OffsetInForce } from '../meter/OffsetInForce';
import { useApp } from '../shared/appScope';
import { figuresOf, isRough } from '../shared/figures';
import { holdFocus } from '../shared/holdFocus';
import { Key } from '../shared/Key';
import { StateMark } from '../shared/Marks';
import { isOld, shortText } from '../shared/oldWords';
import { Unbroken } from '../shared/Unbroken';
import { TryAgain } from '../sources/ProblemNote';
import './callOut.css';

export function CallOut(): JSX.Element {
  const { meter, settings, parts, shown, setOver } = useApp();
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);
  const kit = parts.kit.here;
  const { advice, answer } = shown;
  const patching = (): boolean => kit()?.round.patching() ?? false;
  // what is still plugged in isn't the pair that comes next
  const text = (): string => (patching() ? `Patch ${kit()?.round.title()}` : (advice()?.callOut ?? 'Waiting'));
  // "no answer yet" and why is the call itself already
  const sureness = (): string => {
    const said = advice()?.sureness ?? '';
    return said.toLowerCase() === text().toLowerCase() ? '' : said;
  };
  const rate = (): number => shown.reading()?.sampleRate ?? 1;
  const now = (): string => {
    const said = answer();
    if (patching() || said?.state !== 'measured') return '';
    const { path } = figuresOf(said, rate(), settings.temperatureC(), advice(), micNames(meter.context()));
    return `${said.polarity}, ${path}`;
  };
  // A and B may have been swapped since: their names of now needn’t be those of then
  const before = (): string => {
    const value = meter.previous();
    return patching() || value === null ? '' : `${value.polarity}, ${pathText(value.pathCm)}`;
  };
  /** One line, whatever the call sends hands to. */
  const caution = (): string => {
    if (patching()) return PATCH_CALL;
    return advice()?.cautions[0] ?? '';
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
      aria-label="Big display"
      tabindex="-1"
      ref={panel}
      data-action={advice()?.action ?? ''}
      data-old={String(isOld({ run: meter.run, reading: shown.reading }))}
      data-move-cm={dataNumber(advice()?.moveCm)}
      data-previous-path-cm={dataNumber(meter.previous()?.pathCm)}
    >
      <p class="call-flags">
        <Flags />
        <OffsetInForce flag />
      </p>
      <Show when={meter.problem() ?? meter.aside()}>
        {(problem) => (
          <div class="call-problem" role="alert" data-problem={problem().code}>
            <p>{meter.problem() ? problem().text : shortText(problem())}</p>
            <TryAgain problem={problem()} />
          </div>
        )}
      </Show>
      <p class={`call-text ${size()}`}>
        <Unbroken text={text()} />
      </p>
      <div class="call-values">
        <StateMark
          state={answer()?.state ?? null}
          have={answer()?.hitsPooled ?? 0}
          need={shown.reading()?.hitsNeeded ?? 4}
          rough={isRough(answer(), rate(), settings.temperatureC(), settings.kind())}
          old={isOld({ run: meter.run, reading: shown.reading })}
        />
        <Show
          when={now()}
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
        <Show when={before()}>
          <p>
            <span class="quiet">before</span> <Unbroken text={before()} />
          </p>
        </Show>
      </div>
      <Show when={caution()}>
        <p class="call-caution">△ {caution()}</p>
      </Show>
      <Show when={kit()} keyed>
        {(it) => <it.RoundCall warned={caution() !== ''} />}
      </Show>
      <button type="button" class="press call-close" data-command="back" onClick={() => setOver(null)}>
        Back to the meter <Key of="back" />
      </button>
    </div>
  );
}
