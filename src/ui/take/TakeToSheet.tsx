/** From a take onto the kit sheet: a sheet made of it, its readings accepted, drum by drum or all. */
import { createMemo, createSignal, type JSX, Show } from 'solid-js';
import type { Take } from '../../state/take/take';
import type { TakeSheet } from '../../state/take/takeSheet';
import { stemOf } from '../../take/names';
import { counted } from '../../text/count';
import { kitName } from '../../text/names';
import { listText } from '../../text/sentence';
import { download } from '../print/download';
import { useApp } from '../shared/appScope';

export function TakeToSheet(props: { take: Take; ofSheet: TakeSheet }): JSX.Element {
  const { meter, parts } = useApp();
  const [making, setMaking] = createSignal(false);
  const { ofSheet } = props;
  const missing = (): string => listText(ofSheet.missing().map(({ file }) => stemOf(file)));
  async function make(): Promise<void> {
    setMaking(true);
    await parts.kit.fetch();
    await ofSheet.make();
    setMaking(false);
  }
  return (
    <section class="take-sheet" aria-labelledby="take-sheet">
      <h2 id="take-sheet">Kit sheet</h2>
      <Show
        when={ofSheet.sheet()}
        fallback={
          <div class="presses">
            <button
              type="button"
              class="press"
              data-command="take-make-sheet"
              disabled={making()}
              onClick={() => void make()}
            >
              Make a kit sheet of it
            </button>
            <span class="quiet">
              One mic a track, and the pairs that were read. To use a sheet of yours, open that first.
            </span>
          </div>
        }
      >
        {(sheet) => (
          <>
            <p>
              {kitName(sheet().name)}: {ofSheet.mics().size} of {counted(props.take.tracks().length, 'track')} on it.
              <Show when={missing() !== ''}> Not on it: {missing()}.</Show>
            </p>
            <div class="presses">
              <AcceptPress ofSheet={ofSheet} drum={null}>
                Accept all readings
              </AcceptPress>
              <Show when={missing() !== ''}>
                <button type="button" class="press" data-command="take-add-mics" onClick={() => ofSheet.addMissing()}>
                  Add {ofSheet.missing().length === 1 ? 'that mic' : 'those mics'} to it
                </button>
              </Show>
              <Show when={parts.kit.here()?.shelf.canUndo()}>
                <button
                  type="button"
                  class="press"
                  data-command="take-undo"
                  onClick={() => parts.kit.here()?.shelf.undo()}
                >
                  Undo on the sheet
                </button>
              </Show>
              <button type="button" class="press" data-command="take-open-sheet" onClick={() => meter.go('kit')}>
                Open the kit sheet
              </button>
            </div>
          </>
        )}
      </Show>
      <div class="presses">
        <button
          type="button"
          class="press"
          data-command="take-csv"
          onClick={() => {
            const csv = ofSheet.csv();
            if (csv !== null) download('offsets.csv', csv, 'text/csv');
          }}
        >
          Offsets and inverts (CSV)
        </button>
        <span class="quiet">A row a track: what to delay and invert in the mix. No audio is changed.</span>
      </div>
      <p role="status" data-take-said>
        {ofSheet.said()}
      </p>
    </section>
  );
}

/** What it would come to is said before it is pressed. @param drum null: all */
export function AcceptPress(props: { ofSheet: TakeSheet; drum: string | null; children: JSX.Element }): JSX.Element {
  const would = createMemo(() => props.ofSheet.would(props.drum));
  const all = (): number => {
    const it = would();
    return it === null ? 0 : it.fresh.length + it.same.length + it.changed.length;
  };
  return (
    <Show when={would()}>
      {(it) => (
        <span class="take-accept">
          <button
            type="button"
            class="press"
            classList={{ strong: props.drum === null }}
            data-command={props.drum === null ? 'take-accept-all' : 'take-accept'}
            disabled={all() === 0}
            onClick={() => props.ofSheet.accept(props.drum)}
          >
            {props.children}
          </button>
          <span class="quiet">
            {counted(all(), 'pair')}
            <Show when={it().changed.length > 0}>
              , {it().changed.length} otherwise than before: the reading before is kept
            </Show>
          </span>
        </span>
      )}
    </Show>
  );
}
