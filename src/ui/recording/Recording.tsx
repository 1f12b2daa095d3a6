/** Files that were dropped or chosen: which is A, what the two are, and whether to analyse or to play them. */
import { For, type JSX, Show } from 'solid-js';
import { areCrossed } from '../../advice/names/guessPair';
import type { AskedPair } from '../../state/source/askedPair';
import { pairName } from '../../text/names';
import { percentText } from '../../text/number';
import { useApp } from '../shared/appScope';
import { FilePress } from '../sources/FilePress';
import { PairFields } from '../sources/PairFields';
import { useSheetPair } from '../sources/sheetPair';
import './recording.css';

export function Recording(): JSX.Element {
  const { meter } = useApp();
  const sheetPair = useSheetPair();
  const pair = (): AskedPair => sheetPair() ?? meter.filesPair();
  const start = (mode: 'analyse' | 'play'): void =>
    void meter.open({ type: 'recording', files: meter.files(), mode, pair: pair() });
  const called = (at: 0 | 1): string => {
    const label = pair().labels[at];
    const letter = at === 0 ? 'A' : 'B';
    return label === '' ? letter : `${letter} · ${label}`;
  };
  const bothCalled = (): string => {
    const [a, b] = pair().labels;
    return a !== '' && b !== '' ? `A + B · ${pairName(a, b)}` : 'A + B';
  };
  const heading = (): string => {
    if (meter.files().length === 2) return 'Two files: A and B';
    return meter.filesFate() === 'fine' ? 'One file: left is A, right is B' : 'One file';
  };
  const names = (): string[] => meter.files().map((file) => file.name);
  const remark = (): string => {
    const label = meter.filesLabel();
    if (meter.filesFate() === 'reading') return 'Checking it …';
    if (meter.filesFate() === 'unusable') return 'This can’t be measured: choose another.';
    // the label repeats the names that stand above; with a remark it says more
    return label.endsWith(')') && !names().includes(label) ? label : '';
  };
  return (
    <main class="recording" data-files={meter.filesFate()}>
      <h1>{heading()}</h1>
      <ol class="files">
        <For each={meter.files()}>
          {(file, i) => (
            <li>
              <b>{meter.files().length === 2 ? called(i() as 0 | 1) : bothCalled()}</b> <span>{file.name}</span>
            </li>
          )}
        </For>
      </ol>
      <Show when={areCrossed(names(), pair().labels)}>
        <p role="status">Going by the file names, A and B are swapped. Swap the files, unless the names are wrong.</p>
      </Show>
      <Show when={remark()}>
        <p>{remark()}</p>
      </Show>
      <Show when={meter.filesFate() !== 'unusable'}>
        <section class="device" aria-label="Which mics are these?">
          <PairFields
            kindId="recording-kind"
            pair={meter.filesPair()}
            guessed={meter.filesGuessed()}
            onSay={(change) => meter.sayFilesPair(change)}
          />
        </section>
      </Show>
      <div class="presses">
        <button
          type="button"
          class="press strong big"
          data-command="analyse"
          disabled={meter.opening()}
          onClick={() => start('analyse')}
        >
          {meter.opening() ? 'Opening …' : 'Analyse it now'}
        </button>
        <button
          type="button"
          class="press"
          data-command="play"
          disabled={meter.opening()}
          onClick={() => start('play')}
        >
          Play it through the meter
        </button>
        <Show when={meter.files().length === 2}>
          <button type="button" class="press" data-command="swap-files" onClick={() => meter.swapFiles()}>
            Swap the two files
          </button>
        </Show>
        <Show when={meter.opening()}>
          <button type="button" class="press" data-command="cancel" onClick={() => void meter.cancel()}>
            Cancel
          </button>
        </Show>
        <FilePress>Choose another file</FilePress>
        <Show
          when={meter.source() !== null}
          fallback={
            <button type="button" class="press" data-command="leave" onClick={() => void meter.leave()}>
              Back to the first page
            </button>
          }
        >
          <button type="button" class="press" data-command="back-to-reading" onClick={() => meter.go('meter')}>
            Back to the meter
          </button>
        </Show>
      </div>
      <p class="quiet">Analysing is faster than playing and gives the same answer. The files stay on this computer.</p>
    </main>
  );
}

/** Progress of a recording, with a way to stop it. */
export function Progress(): JSX.Element {
  const { meter, settings } = useApp();
  // as it is called by now
  const pair = (): AskedPair => ({ kind: settings.kind(), labels: settings.labels(), drum: settings.drum() });
  const recording = () => {
    const source = meter.source();
    return source?.type === 'recording' ? source : null;
  };
  return (
    <Show when={recording()}>
      {(it) => (
        <div class="progress" data-progress={meter.progress() ?? ''}>
          <Show
            when={meter.run() === 'running'}
            fallback={
              <button
                type="button"
                class="press"
                data-command="other-mode"
                disabled={meter.opening()}
                onClick={() =>
                  void meter.open({ ...it(), mode: it().mode === 'play' ? 'analyse' : 'play', pair: pair() })
                }
              >
                {it().mode === 'play' ? 'Analyse it' : 'Play it through the meter'}
              </button>
            }
          >
            <label class="field">
              <span>{it().mode === 'play' ? 'Playing' : 'Analysing'}</span>
              <progress max="1" value={meter.progress() ?? 0} />
              <span class="quiet">{percentText(meter.progress() ?? 0)}</span>
            </label>
            <button type="button" class="press" data-command="cancel" onClick={() => void meter.cancel()}>
              Cancel
            </button>
          </Show>
        </div>
      )}
    </Show>
  );
}
