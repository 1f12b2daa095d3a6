/** The microphones of the kit: what they are called, where they stand, how they are patched and set. */
import { createSignal, Index, type JSX } from 'solid-js';
import { addMicrophone, changeMicrophone, moveMicrophone, removeMicrophone } from '../../sheet/document/edits';
import { MOST_LABEL, MOST_MICROPHONES, MOST_NOTE } from '../../sheet/document/file';
import type { Microphone } from '../../sheet/document/model';
import { focusOnMove } from '../shared/focusOnMove';
import { Fold } from './Fold';
import { useKit } from './useKit';

type TextField = 'label' | 'drum' | 'side' | 'input' | 'lowCut' | 'pad' | 'contour' | 'note';

const COLUMNS: readonly { field: TextField; head: string; hint: string }[] = [
  { field: 'label', head: 'Mic', hint: 'name' },
  { field: 'drum', head: 'Drum', hint: 'whole kit' },
  { field: 'side', head: 'Side', hint: '–' },
  { field: 'input', head: 'Input', hint: '–' },
  { field: 'lowCut', head: 'Low-cut', hint: 'off' },
  { field: 'pad', head: 'Pad', hint: 'off' },
  { field: 'contour', head: 'Contour', hint: '–' },
  { field: 'note', head: 'Note', hint: '–' },
];

export function KitMicrophones(): JSX.Element {
  const { shelf } = useKit();
  const list = (): Microphone[] => shelf.sheet()?.microphones ?? [];
  const [announced, setAnnounced] = createSignal('');
  const name = (one: Microphone, i: number): string => one.label || `mic ${i + 1}`;
  const move = (one: Microphone, i: number, by: -1 | 1): void => {
    shelf.change((sheet) => moveMicrophone(sheet, one.id, by));
    setAnnounced(`${name(one, i)} is number ${i + 1 + by} now.`);
    focusOnMove('mic', i + by, by, list().length);
  };
  return (
    <Fold id="mics" title="Mics" note={String(list().length)} open={list().length === 0}>
      <p class="unseen" role="status">
        {announced()}
      </p>
      <datalist id="drum-names">
        <Index each={[...new Set(list().map(({ drum }) => drum))].filter((drum) => drum !== '')}>
          {(drum) => <option value={drum()} />}
        </Index>
      </datalist>
      <div class="kit-scroll">
        <table class="kit-table microphones">
          <thead>
            <tr>
              <Index each={COLUMNS}>{(column) => <th scope="col">{column().head}</th>}</Index>
              <th scope="col">Polarity switch</th>
              <th scope="col">
                <span class="unseen">Order</span>
              </th>
            </tr>
          </thead>
          <tbody>
            <Index each={list()}>
              {(one, i) => (
                <tr data-microphone={one().id}>
                  <Index each={COLUMNS}>
                    {(column) => (
                      <td data-head={column().head} class={`cell-${column().field}`}>
                        <input
                          type="text"
                          class="cell"
                          aria-label={`${column().head} of ${name(one(), i)}`}
                          placeholder={column().hint}
                          maxlength={column().field === 'note' ? MOST_NOTE : MOST_LABEL}
                          list={column().field === 'drum' ? 'drum-names' : undefined}
                          value={one()[column().field]}
                          title={one()[column().field]}
                          onChange={(e) => {
                            const text = e.currentTarget.value.trim();
                            shelf.change((sheet) => changeMicrophone(sheet, one().id, { [column().field]: text }));
                          }}
                        />
                      </td>
                    )}
                  </Index>
                  <td data-head="Polarity switch">
                    <button
                      type="button"
                      class="press small"
                      classList={{ on: one().inverted }}
                      aria-label={`Polarity switch of ${name(one(), i)}: ${one().inverted ? 'inverted' : 'normal'}`}
                      onClick={() =>
                        shelf.change((sheet) => changeMicrophone(sheet, one().id, { inverted: !one().inverted }))
                      }
                    >
                      {one().inverted ? 'inverted' : 'normal'}
                    </button>
                  </td>
                  <td class="order">
                    <button
                      type="button"
                      id={`mic-up-${i}`}
                      class="press small"
                      aria-label={`Move ${name(one(), i)} up`}
                      disabled={i === 0}
                      onClick={() => move(one(), i, -1)}
                    >
                      ↑
                    </button>
                    <button
                      type="button"
                      id={`mic-down-${i}`}
                      class="press small"
                      aria-label={`Move ${name(one(), i)} down`}
                      disabled={i === list().length - 1}
                      onClick={() => move(one(), i, 1)}
                    >
                      ↓
                    </button>
                    <button
                      type="button"
                      class="press small"
                      aria-label={`Remove ${name(one(), i)} and its pairs`}
                      title="Its pairs go too; undo brings them back"
                      onClick={() => shelf.change((sheet) => removeMicrophone(sheet, one().id))}
                    >
                      ✕
                    </button>
                  </td>
                </tr>
              )}
            </Index>
          </tbody>
        </table>
      </div>
      <button
        type="button"
        class="press"
        data-command="add-microphone"
        disabled={list().length >= MOST_MICROPHONES}
        onClick={() => {
          shelf.change((sheet) => addMicrophone(sheet, ''));
          queueMicrotask(() => document.querySelector<HTMLElement>('.microphones tr:last-child .cell')?.focus());
        }}
      >
        Add a mic
      </button>
    </Fold>
  );
}
