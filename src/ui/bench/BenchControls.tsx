/** What can be set beside the drawing: only what the lesson needs, or what this drum has. */
import { For, type JSX, Match, Show, Switch } from 'solid-js';
import type { Teaching } from '../../state/teaching/teaching';
import { DRUMS } from '../../teaching/bench/drums';
import {
  invert,
  setBody,
  setKind,
  setLevels,
  setMixDelay,
  setPhantom,
  setTemperature,
} from '../../teaching/bench/edits';
import {
  BODY_MOST_CM,
  type ControlId,
  type HitId,
  MIX_DELAY_MOST_MS,
  type MicId,
  TEMPERATURES_C,
} from '../../teaching/bench/model';
import { DRUM_WORDS, HIT_WORDS, micName } from '../../teaching/words/benchWords';
import { fixed } from '../../text/number';

export function BenchControls(props: { teaching: Teaching }): JSX.Element {
  /** on the free bench, what is seldom wanted lies in a fold */
  const plain = (): readonly ControlId[] =>
    props.teaching.run() ? props.teaching.controls() : props.teaching.controls().filter((id) => !isFolded(id));
  const folded = (): readonly ControlId[] => (props.teaching.run() ? [] : props.teaching.controls().filter(isFolded));
  return (
    <section class="bench-controls" aria-label="What can be set">
      <For each={plain()}>{(id) => <Control of={id} teaching={props.teaching} />}</For>
      <Show when={folded().length > 0}>
        <details class="bench-more">
          <summary>More: capsules, delays, levels, air</summary>
          <div>
            <For each={folded()}>{(id) => <Control of={id} teaching={props.teaching} />}</For>
          </div>
        </details>
      </Show>
    </section>
  );
}

const isFolded = (id: ControlId): boolean => !PLAIN.has(id);
const PLAIN: ReadonlySet<ControlId> = new Set(['drum', 'hit', 'invert-a', 'invert-b']);

function Control(props: { of: ControlId; teaching: Teaching }): JSX.Element {
  const mic = (): MicId => (props.of.endsWith('-a') ? 'a' : 'b');
  const { teaching } = props;
  return (
    <Switch>
      <Match when={props.of === 'drum'}>
        <DrumChoice teaching={teaching} />
      </Match>
      <Match when={props.of === 'hit'}>
        <HitChoice teaching={teaching} />
      </Match>
      <Match when={props.of === 'invert-a' || props.of === 'invert-b'}>
        <InvertSwitch mic={mic()} teaching={teaching} />
      </Match>
      <Match when={props.of === 'body-a' || props.of === 'body-b'}>
        <label class="field">
          <span>{micName(mic())}’s capsule behind the grille</span>
          <input
            type="range"
            data-control={props.of}
            min="0"
            max={BODY_MOST_CM}
            step="0.5"
            value={teaching.bench()[mic()].bodyCm}
            aria-valuetext={`${fixed(teaching.bench()[mic()].bodyCm, 1)} cm`}
            onInput={(e) => teaching.drag(props.of, (now) => setBody(now, mic(), e.currentTarget.valueAsNumber))}
            onChange={() => teaching.settle()}
            onBlur={() => teaching.rest()}
          />
          <output>{fixed(teaching.bench()[mic()].bodyCm, 1)} cm</output>
        </label>
      </Match>
      <Match when={props.of === 'delay-a' || props.of === 'delay-b'}>
        <NumberField
          id={props.of}
          name={`Delay ${micName(mic())} in the mix`}
          unit="ms"
          value={teaching.bench()[mic()].mixDelayMs}
          least={0}
          most={MIX_DELAY_MOST_MS}
          step={0.05}
          onSet={(ms) => teaching.change(props.of, (now) => setMixDelay(now, mic(), ms))}
          onLeave={teaching.rest}
        />
      </Match>
      <Match when={props.of === 'phantom-b'}>
        <label class="check">
          <input
            type="checkbox"
            data-control="phantom-b"
            checked={teaching.bench().b.phantomOn}
            disabled={teaching.bench().b.kind === 'speaker'}
            onChange={(e) => teaching.change('', (now) => setPhantom(now, 'b', e.currentTarget.checked))}
          />
          B’s phantom power
        </label>
      </Match>
      <Match when={props.of === 'kind-b'}>
        <label class="check">
          <input
            type="checkbox"
            data-control="kind-b"
            checked={teaching.bench().b.kind === 'speaker'}
            disabled={teaching.bench().b.phantomOn}
            onChange={(e) =>
              teaching.change('', (now) => setKind(now, 'b', e.currentTarget.checked ? 'speaker' : 'mic'))
            }
          />
          B is a speaker used as a mic
          <Show when={teaching.bench().b.phantomOn}>
            <span class="quiet">(phantom power off first)</span>
          </Show>
        </label>
      </Match>
      <Match when={props.of === 'levels'}>
        <label class="field">
          <span>Levels</span>
          <select
            data-control="levels"
            value={teaching.bench().levels}
            onChange={(e) => {
              const levels = e.currentTarget.value === 'distance' ? 'distance' : 'equal';
              teaching.change('', (now) => setLevels(now, levels));
            }}
          >
            <option value="equal">equal</option>
            <option value="distance">by distance</option>
          </select>
        </label>
      </Match>
      <Match when={props.of === 'temperature'}>
        <NumberField
          id="bench-temperature"
          name="Air"
          unit="°C"
          value={teaching.bench().temperatureC}
          least={TEMPERATURES_C.least}
          most={TEMPERATURES_C.most}
          step={1}
          onSet={(t) => teaching.change('temperature', (now) => setTemperature(now, t))}
          onLeave={teaching.rest}
        />
      </Match>
    </Switch>
  );
}

function DrumChoice(props: { teaching: Teaching }): JSX.Element {
  return (
    <label class="field">
      <span>Drum</span>
      <select
        data-control="drum"
        value={props.teaching.bench().drum}
        onChange={(e) => {
          const drum = DRUM_IDS.find((id) => id === e.currentTarget.value);
          if (drum) props.teaching.chooseDrum(drum);
        }}
      >
        <For each={DRUM_IDS}>{(id) => <option value={id}>{DRUM_WORDS[id]}</option>}</For>
      </select>
    </label>
  );
}
const DRUM_IDS = ['snare', 'kick', 'kit'] as const;

function HitChoice(props: { teaching: Teaching }): JSX.Element {
  const hits = (): HitId[] => Object.keys(DRUMS[props.teaching.bench().drum].hits) as HitId[];
  return (
    <fieldset class="bench-hits">
      <legend class="unseen">Which drum is hit</legend>
      <For each={hits()}>
        {(hit) => (
          <button
            type="button"
            class="press"
            data-hit={hit}
            aria-pressed={props.teaching.bench().hit === hit}
            onClick={() => props.teaching.chooseHit(hit)}
          >
            {HIT_WORDS[hit]} is hit
          </button>
        )}
      </For>
    </fieldset>
  );
}

function InvertSwitch(props: { mic: MicId; teaching: Teaching }): JSX.Element {
  return (
    <button
      type="button"
      class="press"
      data-control={`invert-${props.mic}`}
      aria-pressed={props.teaching.bench()[props.mic].inverted}
      onClick={() => props.teaching.change('', (now) => invert(now, props.mic))}
    >
      Invert {micName(props.mic)}
    </button>
  );
}

/** A number that can be typed; what is none stays as it was. */
function NumberField(props: {
  id: string;
  name: string;
  unit: string;
  value: number;
  least: number;
  most: number;
  step: number;
  onSet: (value: number) => void;
  onLeave: () => void;
}): JSX.Element {
  return (
    <label class="field">
      <span>{props.name}</span>
      <input
        type="number"
        data-control={props.id}
        min={props.least}
        max={props.most}
        step={props.step}
        value={props.value}
        onChange={(e) => {
          props.onSet(e.currentTarget.valueAsNumber);
          e.currentTarget.value = String(props.value);
        }}
        onBlur={() => props.onLeave()}
      />
      <span>{props.unit}</span>
    </label>
  );
}
