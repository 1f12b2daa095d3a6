/** Which of the drums that are heard is read: a choice as soon as there is more than one. */
import { For, type JSX, Show } from 'solid-js';
import { drumAnswer } from '../../advice/words/drumWords';
import type { DrumReading, Reading } from '../../reading/reading';
import { hitsText } from '../../text/count';
import { drumName } from '../../text/names';
import { fixed, orNoValue } from '../../text/number';
import { useApp } from '../shared/appScope';
import { Key } from '../shared/Key';
import { Unbroken } from '../shared/Unbroken';

/** @param props.group a name of its own for each place on the page where it stands */
export function DrumChoice(props: { group: string }): JSX.Element {
  const { meter, settings } = useApp();
  const drums = (): DrumReading[] => meter.reading()?.drums ?? [];
  const ids = (): number[] => drums().map((drum) => drum.id);
  const chosen = (): number | null => (meter.reading()?.drumChosen ? (meter.reading()?.drum ?? null) : null);
  const Row = (row: { id: number | null; children: JSX.Element }): JSX.Element => (
    <label class="drum" data-drum={row.id ?? 'loudest'} data-read={String(row.id === meter.reading()?.drum)}>
      <input type="radio" name={props.group} checked={chosen() === row.id} onChange={() => meter.chooseDrum(row.id)} />
      <span>{row.children}</span>
    </label>
  );
  const level = (dbfs: number | null): string => orNoValue(dbfs, (it) => fixed(it, 0));
  const numbers = ({ hits, levelADbfs, levelBDbfs }: DrumReading): string =>
    `${hitsText(hits)} heard · A ${level(levelADbfs)}, B ${level(levelBDbfs)} dBFS`;
  const answer = (drum: DrumReading | undefined): string =>
    drum ? drumAnswer(drum, meter.reading() as Reading, settings.temperatureC(), meter.context().ended) : '';
  return (
    <Show when={drums().length > 1}>
      <div class="drums" role="radiogroup" aria-label="Drums heard">
        <Row id={null}>
          Of the drums heard, read <b>the loudest in A</b> <Key of="drum" />
        </Row>
        <For each={ids()}>
          {(id) => {
            const drum = (): DrumReading | undefined => drums().find((one) => one.id === id);
            return (
              <Row id={id}>
                <b>{drum() && drumName(drum() as DrumReading, meter.reading() as Reading)}</b>:{' '}
                <Unbroken text={answer(drum())} />{' '}
                <span class="quiet">
                  <Unbroken text={drum() ? numbers(drum() as DrumReading) : ''} />
                </span>
              </Row>
            );
          }}
        </For>
      </div>
    </Show>
  );
}
