/** Voice and tone: on and off, their levels, and how they sound. Off until somebody wants them. */
import { type Accessor, For, type JSX, onCleanup, onMount, Show } from 'solid-js';
import { CAUTION, openVoices, runTone, runVoice, toneSample, voiceSample } from '../../state/callOut/sounds';
import { percentText } from '../../text/number';
import { useApp } from '../shared/appScope';
import './soundPanel.css';

/** What sounds while they are on; nothing to be seen. */
export function Sounds(): JSX.Element {
  const { meter, settings, shown, parts } = useApp();
  const pair = (): string => parts.kit.here()?.round.title() ?? '';
  const sounds = { meter, settings, shown, pair };
  const Voice = (): null => {
    runVoice(sounds);
    return null;
  };
  const Tone = (): null => {
    runTone(sounds);
    return null;
  };
  return (
    <>
      <Show when={settings.sound.voiceOn()}>
        <Voice />
      </Show>
      <Show when={settings.sound.toneOn()}>
        <Tone />
      </Show>
    </>
  );
}

function Level(props: { id: string; level: Accessor<number>; onLevel: (level: number) => void }): JSX.Element {
  return (
    <label class="field">
      <span>Level</span>
      <input
        id={props.id}
        type="range"
        min="0.05"
        max="1"
        step="0.05"
        value={props.level()}
        aria-valuetext={percentText(props.level())}
        onInput={(e) => props.onLevel(Number(e.currentTarget.value))}
      />
    </label>
  );
}

function VoiceChoice(): JSX.Element {
  const { settings } = useApp();
  const { sound } = settings;
  const voices = openVoices();
  return (
    <section aria-labelledby="voice-title">
      <h3 id="voice-title">Voice</h3>
      <p>Says the answer in one short sentence when it has changed, once.</p>
      <Show
        when={voices().length > 0}
        fallback={
          <p data-voices="none">
            This browser has no voice that works on this computer alone, so nothing is said. Voices of a server aren’t
            used.
          </p>
        }
      >
        <label class="check">
          <input
            id="voice-on"
            type="checkbox"
            checked={sound.voiceOn()}
            onChange={(e) => sound.setVoiceOn(e.currentTarget.checked)}
          />
          Say the answer
        </label>
        <label class="field">
          <span>Voice</span>
          <select
            id="voice"
            value={sound.voice() ?? voices()[0] ?? ''}
            onChange={(e) => sound.setVoice(e.currentTarget.value)}
          >
            <For each={voices()}>{(name) => <option value={name}>{name}</option>}</For>
          </select>
        </label>
        <Level id="voice-level" level={sound.voiceLevel} onLevel={sound.setVoiceLevel} />
        <button type="button" class="press" data-command="voice-sample" onClick={() => voiceSample(settings)}>
          Hear the voice
        </button>
      </Show>
    </section>
  );
}

function ToneChoice(): JSX.Element {
  const { settings } = useApp();
  const { sound } = settings;
  let end: (() => void) | null = null;
  const stop = (): void => {
    end?.();
    end = null;
  };
  onCleanup(stop);
  return (
    <section aria-labelledby="tone-title">
      <h3 id="tone-title">Tone</h3>
      <p>
        While a mic is being moved: pulses that rise as it nears its place, then steady with a second tone over it.
        Silent otherwise, and 3 s after the last hit.
      </p>
      <label class="check">
        <input
          id="tone-on"
          type="checkbox"
          checked={sound.toneOn()}
          onChange={(e) => sound.setToneOn(e.currentTarget.checked)}
        />
        Tone while a mic is moved
      </label>
      <Level id="tone-level" level={sound.toneLevel} onLevel={sound.setToneLevel} />
      <button
        type="button"
        class="press"
        data-command="tone-sample"
        onClick={() => {
          stop();
          end = toneSample(settings);
        }}
      >
        Hear the tone
      </button>
    </section>
  );
}

export function SoundPanel(props: { onClose: () => void }): JSX.Element {
  let dialog: HTMLDialogElement | undefined;
  onMount(() => dialog?.showModal());
  return (
    <dialog
      class="sound-panel"
      ref={dialog}
      aria-labelledby="sounds-title"
      onClose={() => props.onClose()}
      // the page's keys are off meanwhile
      onKeyDown={(e) => e.stopPropagation()}
    >
      <div class="sound-head">
        <h2 id="sounds-title">Voice and tone</h2>
        <button type="button" class="press" data-command="close-sounds" onClick={() => dialog?.close()}>
          Close{' '}
          <span class="key" aria-hidden="true">
            Esc
          </span>
        </button>
      </div>
      <p class="call-caution">△ {CAUTION} Closed-back, level down before you put them on.</p>
      <div class="sound-columns">
        <VoiceChoice />
        <ToneChoice />
      </div>
      <p class="quiet">Levels and voice are remembered; both are off again when this page is opened the next time.</p>
    </dialog>
  );
}
