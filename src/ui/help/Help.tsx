/** Help: what a reading means, the keys, the cautions. */
import { For, type JSX, onMount } from 'solid-js';
import { kindWords } from '../../advice/words/pairKindWords';
import { useApp } from '../shared/appScope';
import { CautionList } from '../shared/Cautions';
import { type Command, KEY_OF } from '../shared/keys';
import './help.css';

const KEY_TEXT: readonly [Command, string][] = [
  ['hold', 'hold: freeze the reading'],
  ['start-over', 'hold the key: start over, forget all hits'],
  ['swap', 'swap A and B'],
  ['invert-b', 'invert B, in this meter only'],
  ['kind', 'pair: which mics these are'],
  ['temperature', 'air temperature'],
  ['band-0', 'correlation: all'],
  ['band-1', 'correlation: low'],
  ['band-2', 'correlation: body'],
  ['band-3', 'correlation: mid'],
  ['band-4', 'correlation: attack'],
  ['comb', 'sum: the comb of delay and polarity alone'],
  ['curve', 'first pushes or delay curve'],
  ['call-out', 'big display, and back'],
  ['why', 'why: the hits behind the reading, and back'],
  ['sums', 'how the numbers come about, and back'],
  ['try', 'try it: what a move, an invert or a trim of B would gain, and back'],
  ['drum', 'measure the next drum on the list'],
  ['hear', 'hear it: the example or recording'],
  ['listen', 'play or stop the loop'],
  ['lights', 'theme: auto, light, dark'],
  ['sources', 'choose another source'],
  ['kit', 'the kit sheet, and back'],
  ['accept', 'round: accept if certain, next pair'],
  ['b-inverted', 'round: I inverted B, at its polarity switch'],
  ['a-inverted', 'round: I inverted A, at its polarity switch'],
  ['leave-so', 'round: leave it on purpose, with a note'],
  ['accept-unsure', 'round: accept as uncertain'],
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
            <b>Timing and polarity.</b> Does B start the same way as A, or the opposite way? That start is the first
            push. Delay is arrival at B minus arrival at A: when it’s positive, B hears the drum later. Path is that
            delay as a distance in air.
          </p>
          <p>
            <b>Sum.</b> Which polarity of B makes A+B fuller in the drum’s low octave, with the mics where they are now,
            at equal level? That’s a separate question from timing, and for many pairs the answers differ.
          </p>
          <p>
            <b>How certain.</b> Hit-to-hit spread is how closely the hits agree. The accuracy (±, 90 %) is wider: two
            different mics show the same push differently.
          </p>
          <p>
            <b>Levels</b> are in dBFS: a full-scale sine has an RMS of 0 (AES17). The input isn’t calibrated, so nothing
            here is a sound pressure level.
          </p>
          <p>
            <b>Inputs.</b> A browser passes on two channels of a device. When it has more, the system may mix them or
            pass on nothing: set it to two channels there. Choose the device by its name: then the meter is told when
            it’s unplugged. If the noise between the hits changes in both inputs at once, the meter stops, and you
            identify A and B again.
          </p>
          <p>
            <b>One drum.</b> A reading is of one drum: the one that A, or else B, is clearly at, or the one you choose.
            It stays while others are played; those aren’t counted.
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
            Single-key shortcuts on
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
