/** What is tried, set by hand: B's polarity, how far it is moved, its level. */
import { createSignal, createUniqueId, type JSX } from 'solid-js';
import { MOST_MOVE_CM, MOST_TRIM_DB, NOTHING_TRIED } from '../../advice/tryOut/tried';
import { movedText } from '../../advice/words/tryWords';
import { asMoveCm } from '../../state/views/triedView';
import { MOVE_STEP_CM, parseSigned, TRIM_STEP_DB } from '../../state/views/tryChoice';
import { signed } from '../../text/number';
import { keyTo } from '../plots/keyTo';
import { useApp } from '../shared/appScope';
import { stepOut } from '../shared/ownKeys';

/** of a page key, or an arrow with Shift */
const MOVE_STRIDE_CM = 1;
const TRIM_STRIDE_DB = 3;

/** A slider with a field beside it: the same value twice, to be dragged or typed. */
function Setting(props: {
  id: string;
  label: string;
  unit: string;
  ends: [least: string, most: string];
  value: number;
  most: number;
  step: number;
  stride: number;
  decimals: number;
  text: string;
  /** what stands for the value instead of a move or a trim; empty: nothing does */
  instead?: string;
  set: (value: number) => void;
}): JSX.Element {
  const note = createUniqueId();
  const [wrong, setWrong] = createSignal('');
  const shown = (): string => signed(props.value, props.decimals);
  const range = () => ({ min: -props.most, max: props.most, step: props.step, stride: props.stride, start: 0 });
  return (
    <div class="try-setting">
      <label for={props.id}>{props.label}</label>
      <input
        id={props.id}
        type="range"
        min={-props.most}
        max={props.most}
        step={props.step}
        value={props.value}
        aria-valuetext={props.text}
        onInput={(e) => props.set(Number(e.currentTarget.value))}
        onKeyDown={(e) => {
          if (e.ctrlKey || e.metaKey || e.altKey) return;
          const to = keyTo(e, { at: props.value, ...range() });
          if (to === null) return;
          e.preventDefault();
          props.set(to);
        }}
      />
      <span class="try-figure">
        <input
          id={`${props.id}-field`}
          type="text"
          inputmode="decimal"
          size="5"
          aria-label={`${props.label}, ${props.unit}`}
          aria-invalid={wrong() !== ''}
          aria-describedby={note}
          value={shown()}
          onInput={() => setWrong('')}
          onChange={(e) => {
            const typed = e.currentTarget.value;
            const value = parseSigned(typed, props.most);
            setWrong(value === null ? typed.trim().slice(0, 12) || 'an empty field' : '');
            if (value !== null) props.set(value);
            e.currentTarget.value = shown();
          }}
          onKeyDown={(e) => {
            if (e.key === 'Enter') stepOut(e.currentTarget);
          }}
        />
        {props.unit}
      </span>
      <span class="try-ends" aria-hidden="true">
        <span>{props.ends[0]}</span>
        <b>{props.instead ?? ''}</b>
        <span>{props.ends[1]}</span>
      </span>
      <span class="field-note" id={note} classList={{ unseen: wrong() === '' }}>
        {wrong() === ''
          ? `−${props.most} to +${props.most} ${props.unit}`
          : `Can’t use ${wrong()}: enter −${props.most} to ${props.most} ${props.unit}.`}
      </span>
    </div>
  );
}

export function TrySettings(): JSX.Element {
  const { settings, trying } = useApp();
  const { tried } = trying;
  const moveCm = (): number => {
    const cm = asMoveCm(tried(), settings.temperatureC());
    return Math.max(-MOST_MOVE_CM, Math.min(MOST_MOVE_CM, Math.round(cm / MOVE_STEP_CM) * MOVE_STEP_CM));
  };
  return (
    <section class="try-settings" aria-label="What to try">
      <div class="try-presses">
        <button
          type="button"
          class="press"
          data-command="try-invert"
          aria-pressed={tried().invertB}
          onClick={() => trying.setInvertB(!tried().invertB)}
        >
          {tried().invertB ? 'B inverted' : 'Invert B'}
        </button>
        <button type="button" class="press" data-command="try-nothing" onClick={() => trying.take(NOTHING_TRIED)}>
          Back to now
        </button>
      </div>
      <Setting
        id="try-move"
        label="Move B"
        unit="cm"
        ends={['back', 'closer to the drum']}
        value={moveCm()}
        most={MOST_MOVE_CM}
        step={MOVE_STEP_CM}
        stride={MOVE_STRIDE_CM}
        decimals={1}
        text={movedText(moveCm())}
        instead={tried().delayMs === null ? '' : 'a delay for now'}
        set={trying.setMoveCm}
      />
      <Setting
        id="try-trim"
        label="Trim B"
        unit="dB"
        ends={['softer', 'louder than A']}
        value={tried().trimDb}
        most={MOST_TRIM_DB}
        step={TRIM_STEP_DB}
        stride={TRIM_STRIDE_DB}
        decimals={1}
        text={`${signed(tried().trimDb, 1)} dB from equal level`}
        set={trying.setTrimDb}
      />
    </section>
  );
}
