/** The numbers behind the answer, and the levels of A and B. */
import { createEffect, createSignal, For, type JSX, on, Show } from 'solid-js';
import { usedText } from '../../advice/words/drumWords';
import { pathCm } from '../../reading/acoustics';
import type { ChannelLevel, Reading } from '../../reading/reading';
import { LABEL_LENGTH } from '../../state/settings/settings';
import { counted, samplesFigure } from '../../text/count';
import { lengthFigure, pathFigure } from '../../text/length';
import { dbfsFigure } from '../../text/level';
import { dataNumber, NO_VALUE, percentText } from '../../text/number';
import { msFigure } from '../../text/time';
import { useApp } from '../shared/appScope';
import { PolarityMark } from '../shared/Marks';
import { Unbroken } from '../shared/Unbroken';

const LEVEL_TITLE =
  'dBFS: a full-scale sine has an RMS of 0 dBFS (AES17, plain RMS + 3.01 dB); peaks are the largest sample. Both over the last 400 ms. The input is not calibrated: this is no sound pressure level.';
const DELAY_TITLE = 'Arrival at B minus arrival at A. Positive: B hears the drum later.';

function Row(props: { name: string; title?: string; id?: string; children: JSX.Element }): JSX.Element {
  return (
    <div class="row" title={props.title}>
      <dt>{props.name}</dt>
      <dd id={props.id}>{props.children}</dd>
    </div>
  );
}

function Level(props: { which: 'A' | 'B'; input: 0 | 1; level: ChannelLevel | null }): JSX.Element {
  const { settings, meter } = useApp();
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
      <input
        id={id()}
        class="label-field"
        title={settings.labels()[props.input]}
        maxlength={LABEL_LENGTH}
        placeholder="name it"
        aria-label={`Name of microphone ${props.which}`}
        value={settings.labels()[props.input]}
        onChange={(e) => settings.setLabel(props.input, e.currentTarget.value, meter.source()?.type !== 'demo')}
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
  const { meter } = useApp();
  const [beat, setBeat] = createSignal(0);
  createEffect(on(meter.flashes, (n) => setBeat(n % 2), { defer: true }));
  return (
    <p class="hits">
      <svg class="hit-mark" data-beat={beat()} viewBox="0 0 24 24" aria-hidden="true">
        <path d="M12 2 L14 9.5 L22 12 L14 14.5 L12 22 L10 14.5 L2 12 L10 9.5Z" />
      </svg>
      <span>
        Used: <span id="used">{meter.reading() ? usedText(meter.reading() as Reading) : '0 hits'}</span>
      </span>
    </p>
  );
}

export function Numbers(): JSX.Element {
  const { meter, settings } = useApp();
  const r = meter.reading;
  const samples = (): number | null => meter.answer()?.delaySamples ?? null;
  const rate = (): number => r()?.sampleRate ?? 48000;
  const toCm = (n: number | null | undefined): number | null =>
    n === null || n === undefined ? null : pathCm(n / rate(), settings.temperatureC());
  const plusMinus = (n: number | null | undefined): string => {
    const cm = toCm(n);
    if (cm === null) return NO_VALUE;
    return cm < 0.1 ? 'below 1 mm' : `±${lengthFigure(cm)}`;
  };
  const inputOf = (which: 0 | 1): 0 | 1 => (meter.swapped() ? ((1 - which) as 0 | 1) : which);
  return (
    <section class="numbers" aria-label="Numbers">
      <dl>
        <Row name="Polarity" id="polarity">
          <PolarityMark polarity={meter.answer()?.polarity ?? null} /> {meter.answer()?.polarity ?? NO_VALUE}
        </Row>
        <Row name="Delay" title={DELAY_TITLE} id="delay">
          {msFigure(samples() === null ? null : ((samples() as number) / rate()) * 1000)}
          <Show when={samples() !== null}>
            <span class="quiet"> · {samplesFigure(samples())}</span>
          </Show>
        </Row>
        <Row name="Path" id="path">
          <Unbroken text={pathFigure(toCm(samples()))} />
        </Row>
        <Row
          name="Uncertainty"
          title="90 %: the true delay lies within, the difference between unlike microphones included"
          id="uncertainty"
        >
          <Unbroken text={plusMinus(meter.answer()?.uncertaintySamples)} />
          <Show when={meter.answer()?.uncertaintySamples !== null}>
            {' '}
            <span class="quiet">90 %, microphones unlike</span>
          </Show>
        </Row>
        <Row name="Repeats within" title="half of the used hits lie within this of each other" id="repeats">
          <Unbroken text={plusMinus(meter.answer()?.spreadSamples)} />
          <Show when={meter.answer()?.spreadSamples !== null}>
            {' '}
            <span class="quiet">hit to hit</span>
          </Show>
        </Row>
      </dl>
      <div class="levels">
        <For each={['A', 'B'] as const}>
          {(which, i) => (
            <Level
              which={which}
              input={inputOf(i() as 0 | 1)}
              level={which === 'A' ? (r()?.inputs.a ?? null) : (r()?.inputs.b ?? null)}
            />
          )}
        </For>
        <HitLamp />
      </div>
    </section>
  );
}
