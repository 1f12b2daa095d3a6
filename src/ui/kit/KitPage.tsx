/** The kit sheet: what it is called, how far it is, its microphones, its pairs, and all together. */
import { createMemo, createSignal, For, type JSX, Show, untrack } from 'solid-js';
import { changeSheet } from '../../sheet/document/edits';
import { MOST_LABEL, MOST_NOTE } from '../../sheet/document/file';
import { pairTitle } from '../../sheet/document/labels';
import type { KitSheet } from '../../sheet/document/model';
import { progressOf, proposed } from '../../sheet/kit/roundRules';
import { handOver } from '../../sheet/print/handOver';
import { INITIALS_LENGTH } from '../../state/round/round';
import { parseTemperatureC, USUAL_TEMPERATURE_C } from '../../state/settings/settings';
import type { Lasting } from '../../state/shelf/lasting';
import { clockText } from '../../text/clock';
import { rateText } from '../../text/frequency';
import { kitName } from '../../text/names';
import { fixed } from '../../text/number';
import { useApp } from '../shared/appScope';
import { createArrival } from './createArrival';
import { KitMicrophones } from './KitMicrophones';
import { KitPairs } from './KitPairs';
import { ImportPress, KeptKits, KitShelfPage } from './KitShelfPage';
import { KitTogether } from './KitTogether';
import { useKit } from './useKit';

const RATES = [44100, 48000, 88200, 96000, 176400, 192000];

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

function SheetHead(props: { sheet: KitSheet }): JSX.Element {
  const { meter } = useApp();
  const { shelf, round } = useKit();
  const [wrong, setWrong] = createSignal('');
  const set = (part: Parameters<typeof changeSheet>[1]): void => shelf.change((sheet) => changeSheet(sheet, part));
  const rates = () => (RATES.includes(props.sheet.sampleRate) ? RATES : [...RATES, props.sheet.sampleRate]);
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
          onChange={(e) => set({ name: e.currentTarget.value.trim() })}
        />
      </h1>
      <div class="kit-fields">
        <label class="field">
          <span>Note</span>
          <input
            type="text"
            id="kit-note"
            maxlength={MOST_NOTE}
            size="30"
            value={props.sheet.note}
            onChange={(e) => set({ note: e.currentTarget.value.trim() })}
          />
        </label>
        <label class="field">
          <span>Sample rate</span>
          <select
            id="kit-rate"
            value={String(props.sheet.sampleRate)}
            onChange={(e) => set({ sampleRate: Number(e.currentTarget.value) })}
          >
            <For each={rates()}>{(rate) => <option value={String(rate)}>{rateText(rate)}</option>}</For>
          </select>
        </label>
        <label class="field">
          <span>Air temp, °C</span>
          <input
            type="text"
            id="kit-temperature"
            inputmode="decimal"
            size="4"
            aria-invalid={wrong() !== ''}
            value={fixed(props.sheet.temperatureC, 1)}
            onChange={(e) => {
              const value = parseTemperatureC(e.currentTarget.value);
              setWrong(value === null ? 'Enter −20 to 50 °C.' : '');
              if (value !== null) meter.setTemperatureC(value);
              e.currentTarget.value = fixed(shelf.sheet()?.temperatureC ?? USUAL_TEMPERATURE_C, 1);
            }}
          />
          <span class="field-note" role="status">
            {wrong()}
          </span>
        </label>
        <label class="field">
          <span>Your initials</span>
          <input
            type="text"
            id="initials"
            maxlength={INITIALS_LENGTH}
            size="4"
            value={round.initials()}
            onChange={(e) => round.setInitials(e.currentTarget.value.trim())}
          />
        </label>
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
  const { meter } = useApp();
  const { shelf, round, exportFile, problem } = useKit();
  const arrival = createArrival(untrack(() => props.sheet.pairs.length));
  const progress = () => progressOf(props.sheet);
  const next = () => {
    const system = arrival.whole() ? round.system() : null;
    const it = system && proposed(props.sheet, system, round.pair()?.drum ?? null);
    return it ? props.sheet.pairs.find(({ id }) => id === it.pair) : undefined;
  };
  const said = createMemo(() => (arrival.whole() ? handOver(props.sheet) : null));
  const doubts = () => said()?.doubts ?? [];
  const summary = (): string => {
    const { accepted, unsure, pairs } = progress();
    return `${accepted} of ${pairs} pairs accepted${unsure > 0 ? `, ${unsure} of them as uncertain` : ''}.`;
  };
  return (
    <main class="kit">
      <SheetHead sheet={props.sheet} />
      <p class="kit-progress" id="kit-progress">
        {summary()}
      </p>
      <Show when={doubts().length > 0}>
        <section class="kit-part doubts" aria-labelledby="doubts-title">
          <h2 id="doubts-title">Watch out for</h2>
          <ul class="sentences">
            <For each={doubts()}>{(text) => <li>{text}</li>}</For>
          </ul>
        </section>
      </Show>
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
        <StoreLine />
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
      <KitPairs arrival={arrival} />
      <KitMicrophones />
      <Show when={said()} fallback={<p role="status">Working out the whole kit …</p>}>
        {(all) => <KitTogether said={all()} />}
      </Show>
      <details class="kit-part">
        <summary>Other kits saved here</summary>
        <KeptKits />
        <ImportPress />
      </details>
    </main>
  );
}
