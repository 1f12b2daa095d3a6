/**
 * Hear it: versions of the pair, one after the other at a press, on the same hits and at the same loudness. One or two rows at
 * the foot of a page. The level is at zero whenever it comes up or the sound is another one.
 */
import { createUniqueId, For, type JSX, Show } from 'solid-js';
import { PUTS, type Put, type Version } from '../../listen/version';
import { createListening } from '../../state/listen/listening';
import type { Listening } from '../../state/listen/listeningTypes';
import type { SoundSource } from '../../state/listen/soundSource';
import { percentText } from '../../text/number';
import { HEADPHONES } from '../shared/Cautions';
import { Press } from '../shared/Press';
import { LiveWarning } from './LiveWarning';
import { loopText, matchedText, PUT_WORDS, START_WORDS, STRETCH_WORDS, silentText, TOO_SOFT, WAITING } from './words';
import './listen.css';

export interface ListenStripProps {
  /** what its sound is of; `meter.sound` on the meter */
  source: SoundSource;
  /** at least one, "Now" first: the others are matched with it, put so; A+B unless told. Ids stay while figures change */
  versions: readonly Version[];
  matchTo?: Put;
  /** nothing may tell one from the other but the ear: levels are equal, and the gain isn't shown */
  blind?: boolean;
}

export function ListenStrip(props: ListenStripProps): JSX.Element {
  const listening = createListening({
    source: props.source,
    versions: () => props.versions,
    matchTo: props.matchTo,
    blind: () => props.blind === true,
  });
  const { playing, starting, live, canLive } = listening;
  const sounds = (): boolean => playing() || starting();
  return (
    <section class="listen" aria-label="Hear it">
      <Press
        of="listen"
        strong
        pressed={sounds()}
        onPress={() => (sounds() ? listening.stop() : void listening.play())}
      >
        {sounds() ? '■ Stop' : '▶ Play'}
      </Press>
      <Choice
        legend="Version"
        shown
        values={listening.versions().map(({ id }) => id)}
        text={(id) => listening.versions().find((one) => one.id === id)?.name ?? ''}
        value={listening.chosen()}
        onChoose={listening.choose}
      />
      <Choice
        legend="What you hear"
        values={PUTS}
        text={(put) => PUT_WORDS[put]}
        value={listening.put()}
        onChoose={listening.setPut}
      />
      <Choice
        legend="Loop"
        values={['hit', 'bar'] as const}
        text={(stretch) => STRETCH_WORDS[stretch]}
        value={listening.stretch()}
        onChoose={listening.setStretch}
      />
      <Show when={!props.blind}>
        <Choice
          legend="B starts at"
          values={['equal', 'recorded'] as const}
          text={(start) => START_WORDS[start]}
          value={listening.start()}
          onChoose={listening.setStart}
        />
      </Show>
      <Level of={listening} />
      <Show when={!props.blind}>
        <span
          class="listen-matched"
          data-matched
          title="What this version was turned up or down by, so that louder isn’t taken for better"
        >
          {matchedText(listening.matched(), {
            isLive: live() === 'on',
            isRising: listening.rising(),
            to: props.matchTo,
            first: listening.versions()[0]?.name,
            isFirst:
              listening.chosen() === listening.versions()[0]?.id && listening.put() === (props.matchTo ?? 'both'),
          })}
        </span>
      </Show>
      <Show when={canLive()}>
        <Show when={playing()}>
          <button type="button" class="press" data-command="newest-hits" onClick={() => void listening.play()}>
            Take the newest hits
          </button>
        </Show>
        <button
          type="button"
          class="press"
          data-command="listen-live"
          aria-pressed={live() === 'on'}
          onClick={() => (live() === 'on' ? listening.endLive() : listening.askLive())}
        >
          {live() === 'on' ? '■ Stop live' : 'Hear live'}
        </button>
      </Show>
      <p class="listen-note" role="status" data-silent={listening.silent()?.code ?? ''}>
        <Note of={listening} />
      </p>
      <Show when={live() === 'asked'}>
        <LiveWarning onConfirm={() => void listening.confirmLive()} onClose={listening.endLive} />
      </Show>
    </section>
  );
}

/** What there is to be told: why nothing sounds, what is waited for, or that the level is down. */
function Note(props: { of: Listening }): JSX.Element {
  const text = (): string => {
    const { silent, playing, waiting, live, level, tooSoft, hits } = props.of;
    const reason = silent();
    if (reason) return silentText(reason);
    if (waiting()) return WAITING;
    const sounds = playing() || live() === 'on';
    if (sounds && tooSoft()) return TOO_SOFT;
    if (sounds && level() === 0) return 'Level is at zero: turn it up slowly.';
    if (live() === 'on') return 'Live: what the mics hear now.';
    return playing() ? loopText(hits()) : '';
  };
  return <>{text()}</>;
}

function Level(props: { of: Listening }): JSX.Element {
  const id = createUniqueId();
  return (
    <div class="listen-level">
      <label class="field">
        <span>Level</span>
        <input
          data-field="listen-level"
          type="range"
          min="0"
          max="1"
          step="0.02"
          value={props.of.level()}
          aria-valuetext={props.of.level() === 0 ? 'silent' : percentText(props.of.level())}
          aria-describedby={id}
          onInput={(e) => {
            props.of.setLevel(Number(e.currentTarget.value));
            // it may not be turned up now
            e.currentTarget.value = String(props.of.level());
          }}
        />
      </label>
      <span id={id} class="field-note">
        {HEADPHONES}
      </span>
    </div>
  );
}

/** One of several: a radio group, so arrow keys go from one to the next. Chosen is told by a mark and weight. */
function Choice<T extends string>(props: {
  legend: string;
  /** its name is to be seen */
  shown?: boolean;
  /** what is no other value stays as it is on the screen, whatever its text */
  values: readonly T[];
  text: (value: T) => string;
  value: T;
  onChoose: (value: T) => void;
}): JSX.Element {
  const name = createUniqueId();
  return (
    <fieldset class="listen-choice">
      <legend classList={{ unseen: !props.shown }}>{props.legend}</legend>
      <For each={props.values}>
        {(value) => (
          <label data-choice={value}>
            <input
              type="radio"
              name={name}
              value={value}
              checked={props.value === value}
              onChange={() => props.onChoose(value)}
            />
            <span aria-hidden="true" class="listen-mark" />
            {props.text(value)}
          </label>
        )}
      </For>
    </fieldset>
  );
}
