/** What the two microphones are, asked before anything is judged: the pair kind, their names, the drum. What was guessed says so. */
import { createUniqueId, For, type JSX, Show } from 'solid-js';
import { PAIR_KIND_IDS, type PairKindId } from '../../advice/plan/pairKinds';
import { kindWords } from '../../advice/words/pairKindWords';
import { LABEL_LENGTH } from '../../state/settings/settings';
import { type AskedPair, type Guessed, pairDrum } from '../../state/source/askedPair';
import { DRUM_NAME_LETTERS, givenDrumName, pairName, USUAL_DRUMS } from '../../text/names';
import { useSheetPair } from './sheetPair';

interface PairFieldsProps {
  kindId: string;
  pair: AskedPair;
  /** left out: nothing is guessed here */
  guessed?: Guessed;
  onSay: (change: Partial<AskedPair>) => void;
}

/** In a round the sheet says it, and nothing is asked. */
export function PairFields(props: PairFieldsProps): JSX.Element {
  const sheetPair = useSheetPair();
  return (
    <Show when={sheetPair()} fallback={<Asked {...props} />}>
      {(pair) => (
        <div class="asked" data-asked="sheet">
          <p>
            <b>{pairName(...pair().labels)}</b>: {kindWords(pair().kind).title}
            {pair().drum === '' ? '' : `, ${pair().drum}`}. As on the kit sheet.
          </p>
          <PhantomCaution kind={pair().kind} />
        </div>
      )}
    </Show>
  );
}

function Asked(props: PairFieldsProps): JSX.Element {
  const drums = createUniqueId();
  const words = () => kindWords(props.pair.kind);
  const labelled = (at: 0 | 1, text: string): readonly [string, string] =>
    at === 0 ? [text.trim(), props.pair.labels[1]] : [props.pair.labels[0], text.trim()];
  const drum = (): string => pairDrum(props.pair.drum, props.pair.labels)?.name ?? '';
  const byLabels = (): string => pairDrum('', props.pair.labels)?.name ?? '';
  const isGuessed = (): boolean => {
    const it = props.guessed;
    return it !== undefined && (it.kind || it.labels[0] || it.labels[1] || it.drum);
  };
  return (
    <div class="asked" data-asked={isGuessed() ? 'guessed' : 'open'}>
      <label class="field">
        <span>
          Which mics are these? <Guess on={props.guessed?.kind} />
        </span>
        <select
          id={props.kindId}
          value={props.pair.kind}
          onChange={(e) => props.onSay({ kind: e.currentTarget.value as PairKindId })}
        >
          <For each={PAIR_KIND_IDS}>{(id) => <option value={id}>{kindWords(id).title}</option>}</For>
        </select>
      </label>
      <p class="asked-hint">
        A: {words().aHint}. B: {words().bHint}.
      </p>
      <PhantomCaution kind={props.pair.kind} />
      <div class="asked-names">
        <For each={['A', 'B'] as const}>
          {(letter, i) => {
            const at = i() as 0 | 1;
            return (
              <label class="field">
                <span>
                  {letter} is called <Guess on={props.guessed?.labels[at]} />
                </span>
                <input
                  type="text"
                  data-name-of={letter}
                  maxlength={LABEL_LENGTH}
                  placeholder="no name"
                  value={props.pair.labels[at]}
                  onChange={(e) => props.onSay({ labels: labelled(at, e.currentTarget.value) })}
                />
              </label>
            );
          }}
        </For>
        <label class="field">
          <span>
            The drum <Guess on={props.guessed?.drum} />
          </span>
          <input
            type="text"
            data-name-of="drum"
            list={drums}
            maxlength={DRUM_NAME_LETTERS}
            placeholder="not given"
            value={drum()}
            onChange={(e) => {
              const said = givenDrumName(e.currentTarget.value) ?? '';
              // the same as the names say is theirs to say
              props.onSay({ drum: said === byLabels() ? '' : said });
              e.currentTarget.value = drum();
            }}
          />
          <datalist id={drums}>
            <For each={USUAL_DRUMS}>{(name) => <option value={name} />}</For>
          </datalist>
        </label>
      </div>
      <Show when={props.guessed}>
        <p class="quiet" role="status">
          {isGuessed()
            ? 'Guessed from the file names: correct what’s wrong.'
            : props.pair.kind === 'other' && 'The file names don’t say which mics these are: choose above.'}
        </p>
      </Show>
    </div>
  );
}

function Guess(props: { on: boolean | undefined }): JSX.Element {
  return (
    <Show when={props.on}>
      <span class="guess">guessed</span>
    </Show>
  );
}

function PhantomCaution(props: { kind: PairKindId }): JSX.Element {
  return (
    <Show when={kindWords(props.kind).phantomCaution}>
      <p class="caution-line">△ {kindWords(props.kind).phantomCaution}</p>
    </Show>
  );
}
