/** The kit sheet: what it is called, how far it is, its microphones, its pairs, and all together. */
import { createMemo, For, type JSX, Show, untrack } from 'solid-js';
import { changeSheet } from '../../sheet/document/edits';
import { MOST_LABEL } from '../../sheet/document/file';
import { pairTitle } from '../../sheet/document/labels';
import type { KitSheet } from '../../sheet/document/model';
import { progressOf, proposed } from '../../sheet/kit/roundRules';
import { allTogetherLines } from '../../sheet/print/allTogether';
import { handOver } from '../../sheet/print/handOver';
import { doubtLines } from '../../sheet/print/handOverDoubts';
import type { Lasting } from '../../state/shelf/lasting';
import { clockText } from '../../text/clock';
import { counted } from '../../text/count';
import { kitName } from '../../text/names';
import { KitPicture } from '../drawing/KitPicture';
import { useApp } from '../shared/appScope';
import { AllTogether } from './AllTogether';
import { AT_ONCE, createArrival } from './createArrival';
import { Fold } from './Fold';
import { KitAbout } from './KitAbout';
import { KitMicrophones } from './KitMicrophones';
import { KitPairs } from './KitPairs';
import { ImportPress, KeptKits, KitShelfPage } from './KitShelfPage';
import { KitSums } from './KitSums';
import { KitTogether } from './KitTogether';
import { useKit } from './useKit';

/** What the browser answered, after what is saved. */
const LASTING_TEXT: Readonly<Record<Lasting, string>> = {
  unknown: '',
  kept: ' The browser keeps it until you remove it.',
  'may-be-cleared': ' The browser may clear it when space runs short: export the file.',
};

function StoreLine(): JSX.Element {
  const { shelf } = useKit();
  const saved = () => shelf.kits().find(({ id }) => id === shelf.sheet()?.id)?.savedAt;
  const at = (): string => (saved() ? ` at ${clockText(saved() as string, new Date())}` : '');
  return (
    <p class="store-line" role="status" data-storing={shelf.storing()} data-lasting={shelf.lasting()}>
      {shelf.storing() === 'stored'
        ? `Saved in this browser${at()}.${LASTING_TEXT[shelf.lasting()]}`
        : shelf.storing() === 'storing'
          ? 'Saving …'
          : 'Not saved.'}
    </p>
  );
}

function SheetHead(props: { sheet: KitSheet; summary: string }): JSX.Element {
  const { shelf } = useKit();
  return (
    <div class="kit-head">
      <h1>
        <label class="unseen" for="kit-name">
          Name of the kit
        </label>
        <input
          id="kit-name"
          type="text"
          class="kit-name"
          maxlength={MOST_LABEL}
          placeholder={kitName('')}
          value={props.sheet.name}
          onChange={(e) => {
            const name = e.currentTarget.value.trim();
            shelf.change((sheet) => changeSheet(sheet, { name }));
          }}
        />
      </h1>
      <div class="kit-state">
        <p class="kit-progress" id="kit-progress">
          {props.summary}
        </p>
        <StoreLine />
      </div>
    </div>
  );
}

export function KitPage(): JSX.Element {
  const { shelf } = useKit();
  return (
    <Show when={shelf.sheet()?.id} keyed fallback={<KitShelfPage />}>
      {(_id) => <Show when={shelf.sheet()}>{(sheet) => <OpenKit sheet={sheet()} />}</Show>}
    </Show>
  );
}

function OpenKit(props: { sheet: KitSheet }): JSX.Element {
  const { meter, sum } = useApp();
  const { shelf, round, exportFile, problem } = useKit();
  const arrival = createArrival(untrack(() => props.sheet.pairs.length));
  const progress = () => progressOf(props.sheet);
  const next = () => {
    const whole = system();
    const it = whole && proposed(props.sheet, whole, round.pair()?.drum ?? null);
    return it ? props.sheet.pairs.find(({ id }) => id === it.pair) : undefined;
  };
  const said = createMemo(() => (arrival.whole() ? handOver(props.sheet) : null));
  const system = () => (arrival.whole() ? round.system() : null);
  const doubts = createMemo(() => doubtLines(props.sheet, system()?.drums ?? []));
  const choice = () => system()?.choice ?? null;
  const together = createMemo(() => (arrival.whole() ? allTogetherLines(props.sheet, choice()) : null));
  const summary = (): string => {
    const { accepted, unsure, pairs } = progress();
    return `${accepted} of ${counted(pairs, 'pair')} accepted${unsure > 0 ? `, ${unsure} of them as uncertain` : ''}.`;
  };
  return (
    <main class="kit">
      <SheetHead sheet={props.sheet} summary={summary()} />
      <Show when={round.said() !== ''}>
        <p class="round-said" role="status">
          {round.said()}
        </p>
      </Show>
      <div class="presses kit-presses">
        <Show when={next()}>
          {(pair) => (
            <button
              type="button"
              class="press strong big"
              data-command="begin-round"
              onClick={() => round.begin(pair().id)}
            >
              Next: {pairTitle(props.sheet, pair())}
            </button>
          )}
        </Show>
        <button
          type="button"
          class="press"
          data-command="check-again"
          disabled={progress().accepted === 0}
          title="After a break or a knock: measure each accepted pair again, against what was accepted"
          onClick={() => round.beginCheck()}
        >
          Recheck all pairs
        </button>
        <button type="button" class="press" data-command="hand-over" onClick={() => meter.go('hand-over')}>
          Hand-over
        </button>
        <button
          type="button"
          class="press"
          data-command="undo"
          aria-keyshortcuts="Control+Z"
          disabled={!shelf.canUndo()}
          onClick={() => shelf.undo()}
        >
          Undo
        </button>
        <button
          type="button"
          class="press"
          data-command="redo"
          aria-keyshortcuts="Control+Shift+Z"
          disabled={!shelf.canRedo()}
          onClick={() => shelf.redo()}
        >
          Redo
        </button>
        <button type="button" class="press" data-command="export-kit" onClick={() => exportFile()}>
          Export the file
        </button>
        <button type="button" class="press" data-command="close-kit" onClick={() => void shelf.close()}>
          Other kits
        </button>
      </div>
      <Show when={problem() !== ''}>
        <p class="kit-trouble" role="alert" id="kit-problem">
          {problem()}
        </p>
      </Show>
      <Show when={round.changes().length > 0}>
        <section class="kit-part" aria-labelledby="changes-title">
          <h2 id="changes-title">What changed during the readings</h2>
          <ul class="sentences">
            <For each={round.changes()}>
              {(one) => (
                <li>
                  {clockText(one.at, new Date())} {one.text}
                </li>
              )}
            </For>
          </ul>
        </section>
      </Show>
      <div class="kit-picture-and-words">
        <KitPicture
          sheet={props.sheet}
          choice={choice()}
          next={next()?.id ?? null}
          rows={arrival.whole() ? Number.POSITIVE_INFINITY : AT_ONCE}
          onGo={(pair) => round.begin(pair)}
          onChange={(edit) => shelf.change(edit)}
        />
        <AllTogether sentences={together()} doubts={doubts()} />
      </div>
      <KitPairs arrival={arrival} />
      <KitMicrophones />
      <Show when={said()} fallback={<p role="status">Working out the whole kit …</p>}>
        {(all) => <KitTogether said={all()} />}
      </Show>
      <KitAbout sheet={props.sheet} />
      <Fold id="others" title="Other kits saved here">
        <KeptKits />
        <ImportPress />
      </Fold>
      <Show when={sum() !== null}>
        <KitSums sheet={props.sheet} system={system()} />
      </Show>
    </main>
  );
}
