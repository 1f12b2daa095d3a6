/** No kit is open: begin one, open one that is kept, or bring one as a file. */
import { createSignal, For, type JSX, Show } from 'solid-js';
import { STARTS } from '../../sheet/document/starts';
import { clockText, dayText } from '../../text/clock';
import { kitName } from '../../text/names';
import { useKit } from './useKit';

export function ImportPress(): JSX.Element {
  const { take } = useKit();
  let field: HTMLInputElement | undefined;
  return (
    <>
      <input
        ref={field}
        id="kit-file"
        class="unseen"
        type="file"
        accept=".json,application/json"
        tabindex="-1"
        aria-label="Kit sheet file"
        onChange={(e) => {
          const file = e.currentTarget.files?.[0];
          if (file) void take(file);
          e.currentTarget.value = '';
        }}
      />
      <button type="button" class="press" data-command="import-kit" onClick={() => field?.click()}>
        Open a kit sheet file
      </button>
    </>
  );
}

function KeptKit(props: { id: string }): JSX.Element {
  const { shelf } = useKit();
  const [asked, setAsked] = createSignal(false);
  const one = () => shelf.kits().find(({ id }) => id === props.id);
  const name = (): string => kitName(one()?.name);
  const isOpen = (): boolean => shelf.sheet()?.id === props.id;
  let remove: HTMLButtonElement | undefined;
  return (
    <li class="kept-kit" data-kit={props.id}>
      <button
        type="button"
        class="press"
        data-command="open-kit"
        disabled={isOpen()}
        onClick={() => void shelf.open(props.id)}
      >
        {name()}
      </button>
      <span class="quiet">
        {isOpen() ? 'open, ' : ''}
        saved {clockText(one()?.savedAt ?? '', new Date())}
      </span>
      <Show
        when={asked()}
        fallback={
          <button
            type="button"
            class="press plain"
            data-command="remove-kit"
            aria-label={`Remove ${name()} …`}
            onClick={() => {
              setAsked(true);
              queueMicrotask(() => remove?.focus());
            }}
          >
            Remove …
          </button>
        }
      >
        <span class="kept-ask">
          Gone for good, unless you exported it.
          <button
            type="button"
            class="press"
            data-command="really-remove"
            ref={remove}
            onClick={() => void shelf.remove(props.id)}
          >
            Remove it
          </button>
          <button type="button" class="press" onClick={() => setAsked(false)}>
            Keep it
          </button>
        </span>
      </Show>
    </li>
  );
}

/** Stored kits, a row for each id: a save leaves rows and focus alone. Removing one asks once more. */
export function KeptKits(): JSX.Element {
  const { shelf } = useKit();
  return (
    <ul class="kept">
      <For each={shelf.kits().map(({ id }) => id)}>{(id) => <KeptKit id={id} />}</For>
    </ul>
  );
}

export function KitShelfPage(): JSX.Element {
  const { shelf, loadExample, problem } = useKit();
  const today = (): string => dayText(new Date());
  return (
    <main class="kit">
      <h1>Which kit?</h1>
      <p class="lead">
        A kit sheet lists the mics, the pairs worth measuring, the readings before and after, and what was done. It is
        saved in this browser as you go; nothing leaves this computer.
      </p>
      <Show when={problem() !== ''}>
        <p class="kit-trouble" role="alert" id="kit-problem">
          {problem()}
        </p>
      </Show>
      <Show when={shelf.kits().length > 0}>
        <section class="kit-part" aria-labelledby="kept-title">
          <h2 id="kept-title">Saved here</h2>
          <KeptKits />
        </section>
      </Show>
      <section class="kit-part" aria-labelledby="begin-title">
        <h2 id="begin-title">Start a new sheet</h2>
        <p class="quiet">Mics and pairs are filled in; change what you like.</p>
        <div class="starts">
          <For each={STARTS}>
            {(start) => (
              <button
                type="button"
                class="press start-kit"
                data-start={start.id}
                onClick={() => shelf.create(start.id, `Kit, ${today()}`)}
              >
                <b>{start.microphones.length}</b>
                <span>{start.title.slice(start.title.indexOf(':') + 2)}</span>
              </button>
            )}
          </For>
          <button
            type="button"
            class="press start-kit"
            data-start="none"
            onClick={() => shelf.create('', `Kit, ${today()}`)}
          >
            <b>0</b>
            <span>an empty sheet</span>
          </button>
        </div>
      </section>
      <section class="kit-part" aria-labelledby="bring-title">
        <h2 id="bring-title">Or open one</h2>
        <div class="presses">
          <button type="button" class="press" data-command="example-kit" onClick={() => void loadExample()}>
            The example kit’s sheet, filled in
          </button>
          <ImportPress />
        </div>
      </section>
    </main>
  );
}
