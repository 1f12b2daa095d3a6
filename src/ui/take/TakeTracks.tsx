/** What each track of a take is, as its name says or as a person says: folded while every name was understood. */
import { For, type JSX, Show, untrack } from 'solid-js';
import { guessMic, hearsAll, type MicGuess } from '../../advice/names/guessPair';
import type { Microphone } from '../../sheet/document/model';
import type { Take } from '../../state/take/take';
import type { TakeSheet } from '../../state/take/takeSheet';
import type { TrackReport } from '../../take/model';
import { stemOf } from '../../take/names';
import { LEFT_OUT } from '../../take/told/told';
import { counted } from '../../text/count';
import { microphoneName } from '../../text/names';
import { listText } from '../../text/sentence';
import {
  BY_NAME,
  type Choice,
  chosenOf,
  drumChoices,
  FAR_CHOICES,
  LEAVE_OUT,
  micChosen,
  placeChoices,
  placed,
  sheetChoices,
} from './trackChoices';

/** Neither its name nor a person says what it is. */
const isUnknown = (take: Take, { file }: TrackReport): boolean =>
  !take.told().has(file) && guessMic(stemOf(file)).label === '';

export function TakeTracks(props: { take: Take; ofSheet: TakeSheet }): JSX.Element {
  const tracks = (): TrackReport[] =>
    [...props.take.tracks()].sort((p, q) => p.file.localeCompare(q.file, 'en', { numeric: true }));
  const unknown = (): TrackReport[] => tracks().filter((track) => isUnknown(props.take, track));
  const mics = (): Microphone[] => props.ofSheet.sheet()?.microphones ?? [];
  const drums = (): string[] => [
    ...new Set([...mics().map(({ drum }) => drum), ...tracks().map(({ drum }) => drum ?? '')]),
  ];
  const summary = (): string => {
    const all = counted(tracks().length, 'track');
    if (unknown().length === 0) return `${all}: what each is`;
    return `${all}: say what ${unknown().length === 1 ? 'this one is' : `these ${unknown().length} are`}: ${listText(unknown().map(({ file }) => stemOf(file)))}`;
  };
  // whoever has said what the last one is may have more to say
  const openAtFirst = untrack(unknown).length > 0;
  return (
    <details class="take-tracks" open={openAtFirst} data-unknown={unknown().length}>
      <summary>{summary()}</summary>
      <p class="quiet">
        Another choice has everything read again, and is remembered in this browser for tracks of the same name.
      </p>
      <ul>
        <For each={tracks().map(({ file }) => file)}>
          {(file) => (
            <TrackRow
              take={props.take}
              track={tracks().find((one) => one.file === file) as TrackReport}
              mics={mics()}
              drums={drums()}
              sheetMic={mics().find(({ id }) => id === props.ofSheet.mics().get(file)) ?? null}
            />
          )}
        </For>
      </ul>
    </details>
  );
}

function TrackRow(props: {
  take: Take;
  track: TrackReport;
  mics: readonly Microphone[];
  drums: readonly string[];
  /** of the open kit sheet; null: none fits */
  sheetMic: Microphone | null;
}): JSX.Element {
  const file = (): string => props.track.file;
  const told = () => props.take.told().get(file());
  const guess = (): string => guessMic(stemOf(file())).label;
  const closeTo = (): MicGuess | null => {
    const mic = told();
    if (mic === undefined || mic === LEFT_OUT || hearsAll(mic)) return null;
    return props.mics.some(({ label }) => label === mic.label) ? null : mic;
  };
  const choose = (value: string): void => props.take.tell(file(), micChosen(value, props.mics));
  return (
    <li data-track={file()} data-said={told() === undefined ? 'name' : 'person'}>
      <span class="take-file" title={file()}>
        {stemOf(file())}
      </span>
      <span class="take-is">
        <select
          aria-label={`What ${stemOf(file())} is`}
          value={chosenOf(told(), props.mics)}
          onChange={(e) => choose(e.currentTarget.value)}
        >
          <option value={BY_NAME}>{guess() === '' ? 'not known' : `${guess()} (by name)`}</option>
          <Show when={props.mics.length > 0}>
            <Group label="Mics of the kit sheet" choices={sheetChoices(props.mics)} />
          </Show>
          <Group label="Close to a drum" choices={drumChoices(props.drums)} />
          <Group label="Hears all" choices={FAR_CHOICES} />
          <option value={LEAVE_OUT[0]}>{LEAVE_OUT[1]}</option>
        </select>
        <Show when={closeTo()}>
          {(mic) => (
            <select
              aria-label={`Where on the ${mic().drum} ${stemOf(file())} is`}
              value={mic().place ?? ''}
              onChange={(e) => props.take.tell(file(), placed(mic(), e.currentTarget.value))}
            >
              <For each={placeChoices(mic().drum)}>{([value, text]) => <option value={value}>{text}</option>}</For>
            </select>
          )}
        </Show>
        <Show when={props.sheetMic}>
          {(mic) => <span class="quiet">Kit sheet: {microphoneName(mic().label)}</span>}
        </Show>
      </span>
    </li>
  );
}

function Group(props: { label: string; choices: readonly Choice[] }): JSX.Element {
  return (
    <optgroup label={props.label}>
      <For each={props.choices}>{([value, text]) => <option value={value}>{text}</option>}</For>
    </optgroup>
  );
}
