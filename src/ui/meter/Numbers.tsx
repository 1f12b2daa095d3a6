/** The numbers behind the answer, and the levels of A and B. */
import { createEffect, createSignal, For, type JSX, on, Show } from 'solid-js';
import type { SumId } from '../../advice/sums/sumTypes';
import type { ChannelLevel } from '../../reading/reading';
import { LABEL_LENGTH } from '../../state/settings/settings';
import type { Way } from '../../state/views/pushesView';
import { counted, samplesFigure } from '../../text/count';
import { dbfsFigure } from '../../text/level';
import { dataNumber, NO_VALUE, percentText } from '../../text/number';
import { useApp } from '../shared/appScope';
import { figuresOf, hitsUsed } from '../shared/figures';
import { PolarityMark } from '../shared/Marks';
import { stepOut } from '../shared/ownKeys';
import { SumPress } from '../shared/SumPress';
import { Unbroken } from '../shared/Unbroken';
import { DrumChoice } from './DrumChoice';
import { severalDrums } from './severalDrums';

const LEVEL_TITLE =
  'dBFS: a full-scale sine has an RMS of 0 dBFS (AES17, plain RMS + 3.01 dB). The peak is the largest sample. Both over the last 400 ms. The input isn’t calibrated: this is not dB SPL.';
/** a longer name of a mic is set on two lines */
const LINE_LETTERS = 30;
const DELAY_TITLE = 'Arrival at B minus arrival at A. Positive: B hears the drum later.';

function Row(props: { name: string; title?: string; id?: string; sum?: SumId; children: JSX.Element }): JSX.Element {
  return (
    <div class="row" title={props.title}>
      <dt>
        <Show when={props.sum} fallback={props.name}>
          {(sum) => <SumPress of={sum()}>{props.name}</SumPress>}
        </Show>
      </dt>
      <dd id={props.id}>{props.children}</dd>
    </div>
  );
}

function Level(props: { which: 'A' | 'B'; input: 0 | 1; level: ChannelLevel | null }): JSX.Element {
  const { settings, meter, shown } = useApp();
  const name = (): string => (shown.patching() ? '' : settings.labels()[props.input]);
  const id = (): string => `label-${props.which.toLowerCase()}`;
  return (
    <div
      class="level"
      data-channel={props.which}
      data-peak-dbfs={dataNumber(props.level?.peakDbfs, 2)}
      data-rms-dbfs={dataNumber(props.level?.rmsDbfs, 2)}
      data-clips={props.level?.clips ?? 0}
      title={LEVEL_TITLE}
    >
      <label class="level-name" for={id()}>
        {props.which}
        <Show when={props.which === 'B' && meter.invertB()}>
          <span class="flag flag-small">inv.</span>
        </Show>
      </label>
      <textarea
        id={id()}
        class="label-field"
        classList={{ long: name().length > LINE_LETTERS }}
        rows="1"
        title={name()}
        maxlength={LABEL_LENGTH}
        placeholder={shown.patching() ? 'being patched' : 'name it'}
        aria-label={`Name of mic ${props.which}`}
        value={name()}
        disabled={shown.patching()}
        onKeyDown={(e) => {
          if (e.key !== 'Enter') return;
          e.preventDefault();
          stepOut(e.currentTarget);
        }}
        onChange={(e) =>
          settings.setLabel(props.input, e.currentTarget.value.replace(/\s+/g, ' '), meter.source()?.type !== 'demo')
        }
      />
      <span class="level-number">
        <span class="quiet">peak</span> {dbfsFigure(props.level?.peakDbfs ?? null)}
      </span>
      <span class="level-number">
        <span class="quiet">RMS</span> {dbfsFigure(props.level?.rmsDbfs ?? null)}
      </span>
      <span class="level-number" classList={{ clipped: (props.level?.clips ?? 0) > 0 }}>
        {counted(props.level?.clips ?? 0, 'clip')}
        <Show when={props.level?.silent}> · silent</Show>
        <Show when={Math.abs(props.level?.dc ?? 0) > 0.01}> · DC {percentText(props.level?.dc ?? 0)}</Show>
      </span>
    </div>
  );
}

/** One flash per hit at most, and never more than three a second: the meter already thins them out. */
function HitLamp(): JSX.Element {
  const { meter, shown } = useApp();
  const [beat, setBeat] = createSignal(0);
  createEffect(on(meter.flashes, (n) => setBeat(n % 2), { defer: true }));
  return (
    <p class="hits">
      <svg class="hit-mark" data-beat={beat()} viewBox="0 0 24 24" aria-hidden="true">
        <path d="M12 2 L14 9.5 L22 12 L14 14.5 L12 22 L10 14.5 L2 12 L10 9.5Z" />
      </svg>
      <span>
        {hitsUsed(shown.reading(), meter.context()).label}{' '}
        <span id="used">{hitsUsed(shown.reading(), meter.context()).text}</span>
      </span>
    </p>
  );
}

/** @param props.aWay the way of A’s first push */
export function Numbers(props: { aWay: Way }): JSX.Element {
  const { meter, settings, shown } = useApp();
  const { answer, reading: r } = shown;
  const samples = (): number | null => answer()?.delaySamples ?? null;
  const figures = () => figuresOf(answer(), r()?.sampleRate ?? 1, settings.temperatureC(), shown.advice());
  const inputOf = (which: 0 | 1): 0 | 1 => (meter.swapped() ? ((1 - which) as 0 | 1) : which);
  return (
    <section class="numbers" aria-label="Numbers">
      <Show when={!shown.patching()}>
        <DrumChoice group="drum" />
      </Show>
      <Show when={shown.patching() || !severalDrums(meter.reading())}>
        <p class="drums-none">If more than one drum is heard, they’re listed here.</p>
      </Show>
      <dl>
        <Row name="Polarity" id="polarity">
          <PolarityMark polarity={answer()?.polarity ?? null} aWay={props.aWay} /> {answer()?.polarity ?? NO_VALUE}
        </Row>
        <Row name="Delay" sum="delay" title={DELAY_TITLE} id="delay">
          {figures().delay}
          <Show when={samples() !== null}>
            <span class="quiet"> · {samplesFigure(samples())}</span>
          </Show>
        </Row>
        <Row name="Path" sum="path" id="path">
          <Unbroken text={figures().path} />
        </Row>
        <Row
          name="Accurate to"
          sum="accuracy"
          title="90 % certain that the delay is within this; differences between the mics included"
          id="uncertainty"
        >
          <Unbroken text={figures().accuracy} />
          <Show when={figures().accuracy !== NO_VALUE}>
            {' '}
            <span class="quiet">90 %</span>
          </Show>
        </Row>
        <Row
          name="Hit-to-hit spread"
          sum="spread"
          title="Half of the hits used are within this of the middle one"
          id="repeats"
        >
          <Unbroken text={figures().repeats} />
        </Row>
      </dl>
      <div class="levels">
        <For each={['A', 'B'] as const}>
          {(which, i) => (
            <Level
              which={which}
              input={inputOf(i() as 0 | 1)}
              level={meter.reading()?.inputs[which === 'A' ? 'a' : 'b'] ?? null}
            />
          )}
        </For>
        <HitLamp />
      </div>
    </section>
  );
}
