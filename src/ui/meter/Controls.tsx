/** Everything that can be set while measuring; each with its key. */
import { createSignal, For, type JSX, onCleanup, Show } from 'solid-js';
import { PAIR_KIND_IDS, type PairKindId, pairKind } from '../../advice/plan/pairKinds';
import { kindWords } from '../../advice/words/pairKindWords';
import { parseTemperatureC, TEMPERATURE_MAX_C, TEMPERATURE_MIN_C } from '../../state/settings/settings';
import { fixed, percentText } from '../../text/number';
import { useApp } from '../shared/appScope';
import { HEADPHONES } from '../shared/Cautions';
import { ForgetPress } from '../shared/ForgetPress';
import { Key } from '../shared/Key';
import { stepOut } from '../shared/ownKeys';
import { Press } from '../shared/Press';

/** A choice that would discard the hits waits this long while a person steps through the list by key, ms. */
const STEP_PAUSE_MS = 1500;

function KindChoice(): JSX.Element {
  const { meter, settings, parts } = useApp();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let waiting: PairKindId | null = null;
  let byKey = false;
  const commit = (): void => {
    clearTimeout(timer);
    // of a pair in hand it is the sheet's
    if (waiting !== null && !parts.kit.here()?.round.setKind(waiting)) meter.setKind(waiting);
    waiting = null;
  };
  onCleanup(() => clearTimeout(timer));
  const choose = (kind: PairKindId): void => {
    clearTimeout(timer);
    waiting = kind;
    const sameReach = pairKind(kind).maxLagMs === pairKind(settings.kind()).maxLagMs;
    if (sameReach || !byKey) commit();
    else timer = setTimeout(commit, STEP_PAUSE_MS);
  };
  return (
    <label class="field">
      <span>
        Pair <Key of="kind" />
      </span>
      <select
        id="pair-kind"
        title={kindWords(settings.kind()).expectation}
        value={settings.kind()}
        onPointerDown={() => {
          byKey = false;
        }}
        onKeyDown={(e) => {
          byKey = true;
          if (e.key === 'Enter') commit();
        }}
        onChange={(e) => {
          choose(e.currentTarget.value as PairKindId);
          // after a choice by pointer the letter keys are the meter's again; by key, the next step is to come
          if (!byKey) stepOut(e.currentTarget);
        }}
        onBlur={() => {
          commit();
          byKey = false;
        }}
      >
        <For each={PAIR_KIND_IDS}>{(id) => <option value={id}>{kindWords(id).title}</option>}</For>
      </select>
    </label>
  );
}

function Temperature(): JSX.Element {
  const { meter, settings } = useApp();
  const [wrong, setWrong] = createSignal('');
  const inForce = (): string => fixed(settings.temperatureC(), 1);
  return (
    <label class="field">
      <span>
        Temp, °C <Key of="temperature" />
      </span>
      <input
        id="temperature"
        type="text"
        inputmode="decimal"
        size="4"
        value={inForce()}
        aria-invalid={wrong() !== ''}
        aria-describedby="temperature-note"
        onInput={() => setWrong('')}
        onChange={(e) => {
          const text = e.currentTarget.value;
          const value = parseTemperatureC(text);
          setWrong(value === null ? text.trim().slice(0, 12) || 'an empty field' : '');
          if (value !== null) meter.setTemperatureC(value);
          e.currentTarget.value = inForce();
        }}
        onKeyDown={(e) => {
          if (e.key === 'Enter') stepOut(e.currentTarget);
        }}
      />
      <span id="temperature-note" class="field-note" classList={{ unseen: wrong() === '' }}>
        {wrong() === ''
          ? 'Sets the speed of sound.'
          : `Can’t use ${wrong()}: enter ${fixed(TEMPERATURE_MIN_C, 0)} to ${TEMPERATURE_MAX_C} °C. Still using ${inForce()} °C.`}
      </span>
    </label>
  );
}

function HearIt(): JSX.Element {
  const { meter } = useApp();
  // open mics are heard only on the listening strip, with its warning, and nobody can listen faster than real time
  const audible = (): boolean => {
    const source = meter.source();
    return (
      source?.type === 'demo' || source?.type === 'take' || (source?.type === 'recording' && source.mode === 'play')
    );
  };
  return (
    <Show when={audible()}>
      <div class="hear">
        <label class="field">
          <span>
            Hear it <Key of="hear" />
          </span>
          <input
            id="hear"
            type="range"
            min="0"
            max="1"
            step="0.05"
            value={meter.monitorGain()}
            aria-valuetext={meter.monitorGain() === 0 ? 'silent' : percentText(meter.monitorGain())}
            aria-describedby="hear-caution"
            onInput={(e) => meter.setMonitorGain(Number(e.currentTarget.value))}
          />
        </label>
        <span id="hear-caution" class="field-note">
          {HEADPHONES}
        </span>
      </div>
    </Show>
  );
}

export function Controls(): JSX.Element {
  const { meter, setOver, startOver, swap } = useApp();
  return (
    <section class="controls" aria-label="Controls">
      <div class="bar">
        <Press of="call-out" strong onPress={() => setOver('call-out')}>
          Big display
        </Press>
        <Press of="hold" pressed={meter.held()} onPress={() => meter.hold(!meter.held())}>
          Hold
        </Press>
        <ForgetPress
          command="start-over"
          of="start-over"
          question="Forget all hits?"
          empty={(meter.reading()?.hits ?? 0) === 0}
          title="To forget all hits, hold the key, or press and confirm"
          onForget={startOver}
        >
          Start over
        </ForgetPress>
        <Press of="swap" pressed={meter.swapped()} onPress={swap}>
          Swap A/B
        </Press>
        <Press
          of="invert-b"
          pressed={meter.invertB()}
          onPress={() => meter.setInvertB(!meter.invertB())}
          title="Here only: nothing changes on the desk or in the recording"
        >
          {meter.invertB() ? 'B inverted here' : 'Invert B here'}
        </Press>
      </div>
      <KindChoice />
      <Temperature />
      <HearIt />
      <Show when={meter.source()?.type === 'interface'}>
        <button
          type="button"
          class="press"
          data-command="input-offset"
          disabled={meter.run() !== 'running'}
          title="For two inputs whose converters differ"
          onClick={() => meter.beginOffset()}
        >
          Input offset
        </button>
      </Show>
    </section>
  );
}
