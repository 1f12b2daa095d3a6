/** Which of the drums that are heard is read: a choice as soon as there is more than one. Each can be called by a name. */
import { createSignal, For, type JSX, Show } from 'solid-js';
import { drumAnswer } from '../../advice/words/drumWords';
import { micNames } from '../../advice/words/wording';
import type { DrumReading, Reading } from '../../reading/reading';
import { isDrumOpen } from '../../state/meter/drumOpen';
import { hitsText } from '../../text/count';
import type { MicNames } from '../../text/length';
import { drumName } from '../../text/names';
import { fixed, orNoValue } from '../../text/number';
import { capital } from '../../text/sentence';
import { useApp } from '../shared/appScope';
import { Key } from '../shared/Key';
import { Unbroken } from '../shared/Unbroken';
import { DrumNaming } from './DrumNaming';
import { MoreBelow } from './MoreBelow';
import { severalDrums } from './severalDrums';

/** @param props.group a name of its own for each place on the page where it stands */
export function DrumChoice(props: { group: string }): JSX.Element {
  const { meter, settings } = useApp();
  const [naming, setNaming] = createSignal<number | null>(null);
  const drums = (): DrumReading[] => meter.reading()?.drums ?? [];
  const ids = (): number[] => drums().map((drum) => drum.id);
  const chosen = (): number | null => (meter.reading()?.drumChosen ? (meter.reading()?.drum ?? null) : null);
  const open = (): boolean => isDrumOpen(meter);
  const mics = (): MicNames => micNames(meter.context());
  const given = (id: number): string | null => meter.context().drumNames?.get(id) ?? null;
  // the list is short: A and B, whatever the two are called
  const called = (drum: DrumReading): string => capital(drumName(drum, { drums: drums() }, given(drum.id)));
  const Row = (row: { id: number | null; children: JSX.Element }): JSX.Element => (
    <label class="drum" data-drum={row.id ?? 'picked'} data-read={String(row.id === meter.reading()?.drum)}>
      <input type="radio" name={props.group} checked={chosen() === row.id} onChange={() => meter.chooseDrum(row.id)} />
      <span>{row.children}</span>
    </label>
  );
  const level = (dbfs: number | null): string => orNoValue(dbfs, (it) => fixed(it, 0));
  const numbers = ({ hits, levelADbfs, levelBDbfs }: DrumReading): string =>
    `${hitsText(hits)} heard · ${mics().a}\u00a0${level(levelADbfs)}, ${mics().b}\u00a0${level(levelBDbfs)}\u00a0dBFS`;
  const answer = (drum: DrumReading): string =>
    drumAnswer(drum, meter.reading() as Reading, settings.temperatureC(), meter.context().ended);
  return (
    <Show when={severalDrums(meter.reading())}>
      <div class="drums" role="radiogroup" aria-label="Drums heard">
        <Row id={null}>
          Let the meter pick{open() ? ': it can’t tell' : ''} <Key of="drum" />
        </Row>
        <For each={ids()}>
          {(id) => (
            // a row stays while its drum is heard, and is gone before its drum is missed
            <Show when={drums().find((one) => one.id === id)}>
              {(drum) => (
                <>
                  <div class="drum-row">
                    <Row id={id}>
                      <b>{called(drum())}</b>: <Unbroken text={answer(drum())} />{' '}
                      <span class="quiet">
                        <Unbroken text={numbers(drum())} />
                      </span>
                    </Row>
                    <button
                      type="button"
                      class="drum-name"
                      data-command="name-drum"
                      aria-expanded={naming() === id}
                      aria-label={given(id) === null ? `name it: drum ${id}` : `rename ${given(id)}`}
                      onClick={() => setNaming(naming() === id ? null : id)}
                    >
                      {given(id) === null ? 'name it' : 'rename'}
                    </button>
                  </div>
                  <Show when={naming() === id}>
                    <DrumNaming id={id} name={given(id)} onDone={() => setNaming(null)} />
                  </Show>
                </>
              )}
            </Show>
          )}
        </For>
        <MoreBelow rows=".drum" />
      </div>
    </Show>
  );
}
