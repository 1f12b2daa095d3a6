/** The call-out view: the action, its number, the value before. To be read across a control room and said over talkback. */
import { type JSX, Show } from 'solid-js';
import { pathCm } from '../../reading/acoustics';
import { pairTitle } from '../../sheet/document/names';
import { clockText } from '../../text/clock';
import { pathFigure } from '../../text/length';
import { dataNumber } from '../../text/number';
import { useApp } from '../shared/app';
import { holdFocus } from '../shared/holdFocus';
import { Key } from '../shared/Key';
import { StateMark } from '../shared/Marks';
import { Unbroken } from '../shared/Unbroken';
import { OffsetInForce } from '../sources/Offset';
import { Flags } from './Answer';
import { useRoundLine } from './RoundStrip';

export function CallOut(): JSX.Element {
  const { meter, settings, shelf, round, setCallOut } = useApp();
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);
  const roundLine = useRoundLine();
  const title = (): string => {
    const [sheet, pair] = [shelf.sheet(), round.pair()];
    return sheet && pair ? pairTitle(sheet, pair) : '';
  };
  // what is still plugged in isn't the pair that comes next
  const text = (): string => (round.patching() ? `Patch ${title()}` : (meter.advice()?.callOut ?? 'Waiting'));
  // "can't tell" and why is the call itself already
  const sureness = (): string => {
    const said = meter.advice()?.sureness ?? '';
    return said.toLowerCase() === text().toLowerCase() ? '' : said;
  };
  const now = (): string => {
    const [r, answer] = [meter.reading(), meter.answer()];
    if (!r || answer?.state !== 'measured') return '';
    const seconds = answer.delaySamples / r.sampleRate;
    return `${answer.polarity}, ${pathFigure(pathCm(seconds, settings.temperatureC()))}`;
  };
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
          when={!round.patching() && now()}
          fallback={
            <p>
              <Unbroken text={round.patching() ? '' : sureness()} />
            </p>
          }
        >
          <p>
            <span class="quiet">now</span> <Unbroken text={now()} />
          </p>
        </Show>
        <Show when={!round.patching() && before()}>
          <p>
            <span class="quiet">before</span> <Unbroken text={before()} />
          </p>
        </Show>
      </div>
      <Show when={round.pair()}>
        <p class="call-round">
          <b>{title()}</b> {roundLine()} <span class="quiet">{round.said()}</span>
          <Show when={round.changes()[0]}>
            {(change) => (
              <>
                <br />
                {clockText(change().at, new Date())} {change().text}
              </>
            )}
          </Show>
        </p>
      </Show>
      <button type="button" class="press call-close" data-command="back" onClick={() => setCallOut(false)}>
        Back to the sheet <Key of="back" />
      </button>
    </div>
  );
}
