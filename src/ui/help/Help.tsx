/** Help: what a reading means, the keys, the cautions. */
import { For, type JSX, onMount } from 'solid-js';
import { kindWords } from '../../advice/words/pairKindWords';
import { useApp } from '../shared/appScope';
import { CautionList } from '../shared/Cautions';
import { type Command, KEY_OF } from '../shared/keys';
import './help.css';

const KEY_TEXT: readonly [Command, string][] = [
  ['hold', 'hold the reading'],
  ['start-over', 'held for a moment: start over, forget all hits'],
  ['swap', 'swap A and B'],
  ['invert-b', 'invert B, in this meter only'],
  ['kind', 'choose the pair'],
  ['temperature', 'set the temperature of the air'],
  ['band-0', 'trace: all'],
  ['band-1', 'trace: low'],
  ['band-2', 'trace: body'],
  ['band-3', 'trace: mid'],
  ['band-4', 'trace: attack'],
  ['call-out', 'call-out view, and back'],
  ['why', 'why: the hits behind the reading, and back'],
  ['drum', 'read the next of the drums heard'],
  ['hear', 'hear an example or a recording: level'],
  ['lights', 'lights: as the system, up, down'],
  ['sources', 'choose another source'],
  ['kit', 'the kit sheet, and back'],
  ['accept', 'round: accept what is sure, go on'],
  ['b-inverted', 'round: B’s polarity switch was pressed'],
  ['a-inverted', 'round: A’s polarity switch was pressed'],
  ['leave-so', 'round: leave it so on purpose, with a note'],
  ['accept-unsure', 'round: accept as unsure'],
  ['put-off', 'round: put the pair off'],
  ['help', 'this help'],
  ['back', 'back'],
];

export function Help(): JSX.Element {
  const { settings, setHelp } = useApp();
  let dialog: HTMLDialogElement | undefined;
  onMount(() => dialog?.showModal());
  return (
    <dialog class="help" ref={dialog} aria-labelledby="help-title" onClose={() => setHelp(false)}>
      <div class="help-head">
        <h2 id="help-title">Help and cautions</h2>
        <button type="button" class="press" data-command="close-help" onClick={() => dialog?.close()}>
          Close{' '}
          <span class="key" aria-hidden="true">
            Esc
          </span>
        </button>
      </div>
      <div class="help-columns">
        <section>
          <h3>Cautions</h3>
          <CautionList />
        </section>
        <section>
          <h3>What a reading means</h3>
          <p>
            <b>Arrival.</b> Polarity says whether B’s first push goes the same way as A’s. Delay is arrival at B minus
            arrival at A: positive means that B hears the drum later. Path is that delay as a distance in air.
          </p>
          <p>
            <b>Sum.</b> Fuller says which polarity of B makes A+B stronger in the drum’s low octave as things stand,
            both at equal level. Arrival and sum are two questions; on many pairs they have different answers.
          </p>
          <p>
            <b>How sure.</b> Repeats within is how closely the hits agree with each other. Uncertainty is larger: it
            counts that unlike microphones show the same push differently.
          </p>
          <p>
            <b>Levels</b> are dBFS, a full-scale sine’s RMS at 0 (AES17). The input is not calibrated, so nothing here
            is a sound pressure level. A reading belongs to one drum; of several, the loudest in A unless you choose.
          </p>
          <p>
            <b>{kindWords(settings.kind()).title}.</b> {kindWords(settings.kind()).expectation}
          </p>
        </section>
        <section>
          <h3>Keys</h3>
          <label class="check">
            <input
              type="checkbox"
              checked={settings.keysOn()}
              onChange={(e) => settings.setKeysOn(e.currentTarget.checked)}
            />
            single keys work
          </label>
          <dl class="key-list">
            <For each={KEY_TEXT}>
              {([command, text]) => (
                <div>
                  <dt>
                    <kbd class="key">{KEY_OF[command]}</kbd>
                  </dt>
                  <dd>{text}</dd>
                </div>
              )}
            </For>
          </dl>
        </section>
      </div>
    </dialog>
  );
}
