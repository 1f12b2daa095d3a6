/** Before the first live reading: which input is which microphone, found by speaking, confirmed by the person. */
import { createSignal, type JSX, Match, Show, Switch } from 'solid-js';
import { dbfsFigure } from '../../text/level';
import { useApp } from '../shared/appScope';

export function Identify(): JSX.Element {
  const { meter } = useApp();
  const [first, setFirst] = createSignal<1 | 2 | null>(null);
  const other = (): 1 | 2 => (first() === 1 ? 2 : 1);
  const again = (): void => meter.listenAgain();
  const silent = (): boolean => {
    const r = meter.reading();
    return (r?.inputs.a.silent ?? false) && (r?.inputs.b.silent ?? false);
  };
  const level = (input: 1 | 2) => (input === 1 ? meter.reading()?.inputs.a : meter.reading()?.inputs.b);
  return (
    <main class="identify" data-step={first() === null ? 'a' : 'b'} data-heard={meter.heard() ?? ''}>
      <h1>{first() === null ? 'Speak close to mic A' : 'Now speak close to mic B'}</h1>
      <p class="lead">
        Stop the drummer first. Say a few words about 10 cm from the mic. Don’t tap it, and never lean over a drum that
        is being played.
      </p>
      <p class="quiet">
        Input device: {meter.sourceLabel()}.
        <Show when={meter.unnamed()}>
          {' '}
          The browser doesn’t say which one that is: better go back and choose it by name. And leave the system’s sound
          settings alone while you measure; a system may move a running input to another one without a word.
        </Show>
      </p>
      <div class="inputs">
        {([1, 2] as const).map((input) => (
          <section class="input-card" classList={{ moved: meter.heard() === input }} aria-label={`Input ${input}`}>
            <h2>Input {input}</h2>
            <p class="input-level">{dbfsFigure(level(input)?.rmsDbfs ?? null)}</p>
            <p>{meter.heard() === input ? '◆ signal here' : first() === input ? 'is A' : '◇ quiet'}</p>
          </section>
        ))}
      </div>
      <div class="identify-answer" role="status">
        <Switch
          fallback={
            <p>
              {meter.heardAlike()
                ? 'Both inputs hear that alike. Are the mics side by side? Then go closer to one. If they aren’t, the system may mix its channels: set the interface to two channels in the system’s sound settings, or choose a stereo pair of it.'
                : silent()
                  ? 'Nothing on either input yet. Drummer stopped, monitors down; then check gain, cables, and phantom if they’re condensers.'
                  : 'Listening …'}
            </p>
          }
        >
          <Match when={meter.heard() !== null && first() === null}>
            <p>Input {meter.heard()} has signal. Is that mic A?</p>
          </Match>
          <Match when={meter.heard() !== null && meter.heard() === first()}>
            <p>Input {meter.heard()} again, and that’s A. Speak close to the other mic.</p>
          </Match>
          <Match when={meter.heard() !== null}>
            <p>Input {meter.heard()} has signal. Is that mic B?</p>
          </Match>
        </Switch>
      </div>
      <div class="presses">
        <Show when={meter.heard() !== null}>
          <Show when={meter.heard() !== first()}>
            <button
              type="button"
              class="press strong big"
              data-command="confirm"
              onClick={() => {
                if (first() === null) {
                  setFirst(meter.heard());
                  again();
                } else meter.finishIdentify(first() === 2);
              }}
            >
              Yes, that’s {first() === null ? 'A' : 'B'}
            </button>
          </Show>
          <button type="button" class="press" data-command="listen-again" onClick={again}>
            No, listen again
          </button>
        </Show>
        <Show when={first() !== null}>
          <button type="button" class="press" data-command="assume" onClick={() => meter.finishIdentify(first() === 2)}>
            Use input {other()} as B
          </button>
        </Show>
        <button type="button" class="press" data-command="skip" onClick={() => meter.finishIdentify(false)}>
          Skip this step: input 1 is A, 2 is B
        </button>
        <button type="button" class="press" data-command="leave" onClick={() => void meter.leave()}>
          Back to the first page
        </button>
      </div>
    </main>
  );
}
