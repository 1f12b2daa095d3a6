/** The big display as it looks: the action, its number, the value before. To be read across a room and said over talkback. */
import { For, type JSX, Show } from 'solid-js';
import { HANDS } from '../../advice/words/cautionWords';
import type { CallOutView, RoundCallView } from '../../state/callOut/callOutView';
import { StateMark } from '../shared/Marks';
import { Unbroken } from '../shared/Unbroken';
import './callOut.css';

/** Class of type size: a longer call is set smaller, so that it stays on the screen. */
export function callSize(text: string): 'huge' | 'large' | 'mid' | 'small' {
  const letters = text.length;
  return letters <= 14 ? 'huge' : letters <= 28 ? 'large' : letters <= 56 ? 'mid' : 'small';
}

/** @param props.recover the way out of the problem, where there is one on this page */
export function CallOutFace(props: { view: CallOutView; recover?: JSX.Element }): JSX.Element {
  const view = (): CallOutView => props.view;
  return (
    <>
      <p class="call-flags">
        <For each={view().flags.map(({ code }) => code)}>
          {(code) => {
            const flag = () => view().flags.find((one) => one.code === code);
            return (
              <span
                class="flag"
                classList={{ 'flag-plain': !flag()?.strong }}
                data-flag={code}
                role={code === 'notice' ? 'status' : undefined}
              >
                {flag()?.text}
              </span>
            );
          }}
        </For>
      </p>
      <Show when={view().problem.code}>
        {(code) => (
          <div class="call-problem" role="alert" data-problem={code()}>
            <p>{view().problem.text}</p>
            {props.recover}
          </div>
        )}
      </Show>
      <p class={`call-text ${callSize(view().text)}`}>
        <Unbroken text={view().text} />
      </p>
      <div class="call-values">
        <StateMark {...view().mark} old={view().old} />
        <Show
          when={view().now}
          fallback={
            <p>
              <Unbroken text={view().sureness} />
            </p>
          }
        >
          <p>
            <span class="quiet">now</span> <Unbroken text={view().now} />
          </p>
        </Show>
        <Show when={view().before}>
          <p>
            <span class="quiet">before</span> <Unbroken text={view().before} />
          </p>
        </Show>
      </div>
      <Show when={view().caution}>
        <p class="call-caution">△ {view().caution}</p>
      </Show>
      <Show when={view().round}>{(round) => <RoundCall round={round()} warned={view().caution !== ''} />}</Show>
    </>
  );
}

/** @param props.warned the call itself has its caution already */
function RoundCall(props: { round: RoundCallView; warned: boolean }): JSX.Element {
  return (
    <>
      <Show when={props.round.hands && !props.warned}>
        <p class="call-caution">△ {HANDS}</p>
      </Show>
      <p class="call-round">
        <b>{props.round.title}</b> {props.round.line} <span class="quiet">{props.round.said}</span>
        <Show when={props.round.change}>
          <br />
          {props.round.change}
        </Show>
      </p>
    </>
  );
}
