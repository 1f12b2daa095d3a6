/** What is true of the whole kit: its note, sample rate and air, and who measures. */
import { createSignal, For, type JSX } from 'solid-js';
import { changeSheet } from '../../sheet/document/edits';
import { MOST_NOTE } from '../../sheet/document/file';
import type { KitSheet } from '../../sheet/document/model';
import { INITIALS_LENGTH } from '../../state/round/round';
import { parseTemperatureC, USUAL_TEMPERATURE_C } from '../../state/settings/settings';
import { rateText } from '../../text/frequency';
import { fixed } from '../../text/number';
import { useApp } from '../shared/appScope';
import { Fold } from './Fold';
import { useKit } from './useKit';

const RATES = [44100, 48000, 88200, 96000, 176400, 192000];

export function KitAbout(props: { sheet: KitSheet }): JSX.Element {
  const { meter } = useApp();
  const { shelf, round } = useKit();
  const [wrong, setWrong] = createSignal('');
  const set = (part: Parameters<typeof changeSheet>[1]): void => shelf.change((sheet) => changeSheet(sheet, part));
  const rates = () => (RATES.includes(props.sheet.sampleRate) ? RATES : [...RATES, props.sheet.sampleRate]);
  const note = (): string =>
    [
      rateText(props.sheet.sampleRate),
      `${fixed(props.sheet.temperatureC, 1)} °C`,
      ...(round.initials() ? [round.initials()] : []),
    ].join(', ');
  return (
    <Fold id="about" title="Note, rate, air, initials" note={note()}>
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
          <span>Session’s sample rate</span>
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
    </Fold>
  );
}
