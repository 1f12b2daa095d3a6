/** The pairs of the kit in the order of the round: how far each is, what was expected, read and done. */
import { createMemo, createSignal, For, Index, type JSX, Show } from 'solid-js';
import { PAIR_KIND_IDS, type PairKindId } from '../../advice/plan/pairKinds';
import { kindWords } from '../../advice/words/pairKindWords';
import { addPair, changePair, movePair, removePair } from '../../sheet/document/edits';
import { MOST_LABEL } from '../../sheet/document/file';
import { labelOf, pairTitle } from '../../sheet/document/labels';
import { type KitSheet, lastTaken, type Pair } from '../../sheet/document/model';
import { planInForce } from '../../sheet/kit/pairLine';
import { doneAndLeft } from '../../sheet/print/handOverChanges';
import { firstSumOf } from '../../sheet/sums/sheetSums';
import { comparedText, expectationText, recheckedText, takenText } from '../../state/round/roundWords';
import { clockText } from '../../text/clock';
import { focusOnMove } from '../shared/focusOnMove';
import { SumPress } from '../shared/SumPress';
import type { Arrival } from './createArrival';
import { Fold } from './Fold';
import { PairMark, type PairState } from './PairMark';
import { STATE_TEXT, stateOf } from './pairState';
import { useKit } from './useKit';

function Choice(props: {
  label: string;
  value: string;
  options: readonly (readonly [string, string])[];
  onChoose: (value: string) => void;
}): JSX.Element {
  return (
    <label class="field">
      <span>{props.label}</span>
      <select value={props.value} onChange={(e) => props.onChoose(e.currentTarget.value)}>
        <For each={props.options}>{([value, text]) => <option value={value}>{text}</option>}</For>
      </select>
    </label>
  );
}

const KINDS = PAIR_KIND_IDS.map((id) => [id, kindWords(id).title] as const);
const microphonesOf = (sheet: KitSheet) => sheet.microphones.map(({ id }) => [id, labelOf(sheet, id)] as const);

function PairEdit(props: { sheet: KitSheet; pair: Pair }): JSX.Element {
  const { shelf } = useKit();
  const change = (part: Partial<Omit<Pair, 'id'>>): void =>
    shelf.change((sheet) => changePair(sheet, props.pair.id, part));
  return (
    <div class="pair-edit">
      <Choice label="A" value={props.pair.a} options={microphonesOf(props.sheet)} onChoose={(a) => change({ a })} />
      <Choice label="B" value={props.pair.b} options={microphonesOf(props.sheet)} onChoose={(b) => change({ b })} />
      <Choice
        label="Pair"
        value={props.pair.kind}
        options={KINDS}
        onChoose={(kind) => change({ kind: kind as PairKindId })}
      />
      <label class="field">
        <span>Drum to hit</span>
        <input
          type="text"
          list="drum-names"
          maxlength={MOST_LABEL}
          size="10"
          value={props.pair.drum}
          onChange={(e) => change({ drum: e.currentTarget.value.trim() })}
        />
      </label>
      <Show when={props.pair.before !== null}>
        <p class="quiet">Changing a mic or the drum removes this pair’s readings; undo brings them back.</p>
      </Show>
    </div>
  );
}

function PairRow(props: {
  sheet: KitSheet;
  pair: Pair;
  index: number;
  count: number;
  /** what the whole kit does with it is worked out */
  whole: boolean;
  editing: boolean;
  onEdit: (on: boolean) => void;
}): JSX.Element {
  const { shelf, round } = useKit();
  const title = (): string => pairTitle(props.sheet, props.pair);
  const state = (): PairState => stateOf(props.pair);
  const taken = () => lastTaken(props.pair);
  const at = (): string => (props.pair.acceptedAt ? ` ${clockText(props.pair.acceptedAt, new Date())}` : '');
  const system = () => (props.whole ? round.system() : null);
  const choice = () => system()?.choice ?? null;
  const number = createMemo(() => firstSumOf(props.sheet, system(), props.pair));
  const said = createMemo((): string[] => (props.whole ? doneAndLeft(props.sheet, choice(), props.pair) : []));
  const move = (by: -1 | 1): void => {
    shelf.change((sheet) => movePair(sheet, props.pair.id, by));
    focusOnMove('pair', props.index + by, by, props.count);
  };
  return (
    <li class="pair-row" data-pair={props.pair.id} data-state={state()}>
      <PairMark state={state()} />
      <div class="pair-text">
        <p class="pair-name">
          <b>
            <Show when={number()} fallback={title()}>
              {(of) => <SumPress of={of()}>{title()}</SumPress>}
            </Show>
          </b>
          <span class="quiet">
            {kindWords(props.pair.kind).title}; drum: {props.pair.drum || 'any one'}
          </span>
          <span class="pair-state">
            {STATE_TEXT[state()]}
            {at()}
            {taken()?.initials ? `, ${taken()?.initials}` : ''}
          </span>
        </p>
        <Show when={taken()} fallback={<p class="quiet">{expectationText(props.sheet, props.pair)}</p>}>
          {(read) => (
            <>
              <Show when={props.pair.after !== null && props.pair.before}>
                {(before) => <p class="quiet">Before: {takenText(before())}.</p>}
              </Show>
              <p>
                {props.pair.after ? 'After: ' : ''}
                {takenText(read())}.
              </p>
              <p class="quiet">
                {props.whole &&
                  comparedText(props.sheet, props.pair, read(), planInForce(props.sheet, choice(), props.pair))}
              </p>
            </>
          )}
        </Show>
        <Show when={said().length > 0}>
          <p class="pair-said">{said().join('. ')}.</p>
        </Show>
        <Show when={props.pair.checked}>
          {(checked) => <p class="pair-checked">{recheckedText(props.sheet, props.pair, checked(), new Date())}</p>}
        </Show>
        <Show when={props.editing}>
          <PairEdit sheet={props.sheet} pair={props.pair} />
        </Show>
      </div>
      <div class="pair-presses">
        <button
          type="button"
          class="press small"
          data-command="measure-pair"
          onClick={() => round.begin(props.pair.id)}
        >
          {props.pair.acceptedAt === null ? 'Measure' : 'Measure again'}
        </button>
        <button
          type="button"
          class="press small"
          aria-expanded={props.editing}
          aria-label={`Change ${title()}`}
          onClick={() => props.onEdit(!props.editing)}
        >
          Change
        </button>
        <button
          type="button"
          id={`pair-up-${props.index}`}
          class="press small"
          aria-label={`Move ${title()} up`}
          disabled={props.index === 0}
          onClick={() => move(-1)}
        >
          ↑
        </button>
        <button
          type="button"
          id={`pair-down-${props.index}`}
          class="press small"
          aria-label={`Move ${title()} down`}
          disabled={props.index === props.count - 1}
          onClick={() => move(1)}
        >
          ↓
        </button>
        <button
          type="button"
          class="press small"
          aria-label={`Remove ${title()}`}
          title="Undo brings it back"
          onClick={() => shelf.change((sheet) => removePair(sheet, props.pair.id))}
        >
          ✕
        </button>
      </div>
    </li>
  );
}

function AddPair(props: { sheet: KitSheet }): JSX.Element {
  const { shelf } = useKit();
  const [a, setA] = createSignal('');
  const [b, setB] = createSignal('');
  const [kind, setKind] = createSignal<PairKindId>('other');
  const options = () => [['', 'choose'] as const, ...microphonesOf(props.sheet)];
  const drum = (): string => {
    const find = (id: string): string => props.sheet.microphones.find((one) => one.id === id)?.drum ?? '';
    return find(a()) || find(b());
  };
  const ready = (): boolean => a() !== '' && b() !== '' && a() !== b();
  return (
    <fieldset class="add-pair">
      <legend>Another pair</legend>
      <Choice label="A" value={a()} options={options()} onChoose={setA} />
      <Choice label="B" value={b()} options={options()} onChoose={setB} />
      <Choice label="Pair" value={kind()} options={KINDS} onChoose={(it) => setKind(it as PairKindId)} />
      <button
        type="button"
        class="press"
        data-command="add-pair"
        disabled={!ready()}
        onClick={() => {
          shelf.change((sheet) => addPair(sheet, a(), b(), kind(), drum()));
          setA('');
          setB('');
          setKind('other');
        }}
      >
        Add the pair
      </button>
    </fieldset>
  );
}

export function KitPairs(props: { arrival: Arrival }): JSX.Element {
  const { shelf } = useKit();
  // of a pair and not of a row: rows change their pairs
  const [editing, setEditing] = createSignal<string | null>(null);
  return (
    <Show when={shelf.sheet()}>
      {(sheet) => (
        <Fold id="pairs" title="Pairs, in the order of the round" note={String(sheet().pairs.length)}>
          <ol class="pair-list">
            <Index each={sheet().pairs.slice(0, props.arrival.rows())}>
              {(pair, i) => (
                <PairRow
                  sheet={sheet()}
                  pair={pair()}
                  index={i}
                  count={sheet().pairs.length}
                  whole={props.arrival.whole()}
                  editing={editing() === pair().id}
                  onEdit={(on) => setEditing(on ? pair().id : null)}
                />
              )}
            </Index>
          </ol>
          <AddPair sheet={sheet()} />
        </Fold>
      )}
    </Show>
  );
}
