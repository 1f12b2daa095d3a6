/** The three plots with their captions, legends and texts in place of the picture. */
import {
  createEffect,
  createMemo,
  createUniqueId,
  For,
  type JSX,
  on,
  onCleanup,
  onMount,
  Show,
  untrack,
} from 'solid-js';
import { speedOfSound } from '../../reading/acoustics';
import { SPECTRUM_POINTS } from '../../reading/bands';
import { type ArrivalView, arrivalKey, arrivalView } from '../../state/views/arrivalView';
import { CARRIED_WEIGHT, carried, sumKey, sumView } from '../../state/views/sumView';
import { TraceHistory } from '../../state/views/traceHistory';
import { TRACE_BAND_LIST } from '../../state/views/traceView';
import { bandText, hzText } from '../../text/frequency';
import { dataNumber, fixed, NO_VALUE, orNoValue, signed } from '../../text/number';
import { fixedSeconds } from '../../text/time';
import { useApp } from '../shared/appScope';
import { figuresOf } from '../shared/figures';
import { Key } from '../shared/Key';
import type { Command } from '../shared/keys';
import { arrivalPlot, type Plot, sumPlot, tracePlot } from './plots';

/** A plot's place: makes it when the place exists, draws when `view` changes, recolours with the lights. */
function Canvas<View>(props: { make: (host: HTMLElement) => Plot<View>; view: () => View; text: string }): JSX.Element {
  const { inkVersion } = useApp();
  let host: HTMLDivElement | undefined;
  onMount(() => {
    const plot = props.make(host as HTMLDivElement);
    createEffect(() => plot.draw(props.view()));
    createEffect(on(inkVersion, () => plot.recolour(), { defer: true }));
    onCleanup(() => plot.destroy());
  });
  return <div class="canvas" role="img" aria-label={props.text} ref={host} />;
}

export function SumFigure(): JSX.Element {
  const { meter, shown } = useApp();
  const key = createMemo(() => {
    const reading = shown.reading();
    return reading === null ? '' : `${sumKey(reading, shown.advice())}|${JSON.stringify(meter.context())}`;
  });
  // the key says when the picture changes: readings come forty times a second, spectra once a hit
  const view = createMemo(
    on(key, () => {
      const reading = shown.reading();
      return reading === null ? null : { ...sumView(reading, shown.advice(), meter.context()), reading };
    }),
  );
  const notches = (): string => {
    const list = view()?.notchesHz ?? [];
    if (list.length === 0) return '';
    return list.slice(0, 4).map(hzText).join(', ') + (list.length > 4 ? ' …' : '');
  };
  const text = (): string => {
    const now = view();
    if (!now) return 'Sum over frequency: nothing measured yet.';
    const carriedShare =
      (now.reading.sum.spectrum.coherence.filter((c) => carried(c) > CARRIED_WEIGHT).length / SPECTRUM_POINTS) * 100;
    const where = notches() ? `Notches at ${notches()}.` : 'No notches yet.';
    return `Sum of A and B over frequency, 20 Hz to 20 kHz. ${where} The hits agree over ${fixed(carriedShare, 0)} per cent of the curve.`;
  };
  return (
    <figure
      class="figure sum"
      data-changed-seconds={dataNumber(view()?.reading.streamSeconds, 6)}
      data-notches-hz={(view()?.notchesHz ?? [])
        .slice(0, 8)
        .map((hz) => hz.toFixed(1))
        .join(' ')}
    >
      <figcaption>
        <b>The sum over frequency</b>
        <span class="legend">
          <i class="line line-solid" /> A+B measured, levels matched
        </span>
        <Show when={view()?.predictedDb}>
          <span class="legend">
            <i class="line line-thin" /> from delay and polarity alone
          </span>
        </Show>
        <Show when={view()?.afterDb}>
          <span class="legend">
            <i class="line line-dash" /> {view()?.afterWhat}
          </span>
        </Show>
        <Show when={view()?.thinZonesHz.length}>
          <span class="legend">
            <i class="swatch" /> predicted thinner than one mic alone (delay and polarity only)
          </span>
        </Show>
        <Show when={notches()}>
          <span class="legend">▾ notches {notches()}</span>
        </Show>
      </figcaption>
      <Canvas make={sumPlot} view={view} text={text()} />
    </figure>
  );
}

export function TraceFigure(): JSX.Element {
  const { meter, settings, shown } = useApp();
  const nothing = new TraceHistory();
  const group = createUniqueId();
  const band = () => TRACE_BAND_LIST[settings.traceBand()] as (typeof TRACE_BAND_LIST)[number];
  const view = () => {
    meter.reading();
    const history = shown.patching() ? nothing : meter.history;
    return { history, bandIndex: settings.traceBand(), band: band() };
  };
  const value = (): number | null => {
    const reading = shown.reading();
    if (!reading) return null;
    const index = settings.traceBand();
    return index === 0 ? reading.sum.correlation : (reading.sum.bands[index - 1]?.correlation ?? null);
  };
  const text = (): string =>
    `Correlation of A and B over the last 30 seconds, ${band().title}: ${value() === null ? 'no value' : signed(value() as number, 2)} over the hits used.`;
  return (
    <figure class="figure trace" data-band={settings.traceBand()} data-correlation={dataNumber(value())}>
      <figcaption>
        <b>Correlation, 30 s</b>
        <span class="legend">
          over the hits <b>{orNoValue(value(), (r) => signed(r, 2))}</b>
        </span>
        <fieldset class="bands">
          <legend class="unseen">Band of the trace</legend>
          <For each={TRACE_BAND_LIST}>
            {(item, i) => (
              <label
                class="band"
                classList={{ chosen: settings.traceBand() === i() }}
                title={`${bandText(item.lowHz, item.highHz)}, averaged over ${fixedSeconds(item.integrationSeconds, 2)}; unrelated signals wander by ±${fixed(item.scatter, 2)}`}
              >
                <input
                  type="radio"
                  name={group}
                  checked={settings.traceBand() === i()}
                  onChange={() => settings.setTraceBand(i())}
                />
                {item.title} <Key of={`band-${i()}` as Command} />
              </label>
            )}
          </For>
        </fieldset>
      </figcaption>
      <Canvas make={tracePlot} view={view} text={text()} />
    </figure>
  );
}

export function ArrivalFigure(): JSX.Element {
  const { settings, shown } = useApp();
  const said = () => {
    const rate = shown.reading()?.sampleRate ?? 1;
    return figuresOf(shown.answer(), rate, settings.temperatureC(), shown.advice());
  };
  const size = createMemo(() => said().size);
  const key = createMemo(() => {
    const reading = shown.reading();
    return reading === null ? '' : `${arrivalKey(reading)}|${settings.temperatureC()}|${size()}`;
  });
  const view = createMemo<(ArrivalView & { cmPerMs: number; found: string }) | null>((last) => {
    key();
    const reading = untrack(shown.reading);
    if (!reading) return null;
    const cmPerMs = speedOfSound(untrack(settings.temperatureC)) / 10;
    return { ...arrivalView(reading, last?.rangeMs ?? 0), cmPerMs, found: untrack(size) };
  }, null);
  const found = (): string => {
    const { path, delay } = said();
    return delay === NO_VALUE ? '' : `${path}, ${delay}`;
  };
  const text = (): string =>
    found() ? `Delay curve, ${view()?.hits ?? 0} hits: ${found()}.` : 'Delay curve: no delay found yet.';
  return (
    <figure class="figure arrival" data-range-ms={dataNumber(view()?.rangeMs, 2)}>
      <figcaption>
        <b>Delay of B against A</b>
        <span class="legend">{found() || 'none found'}</span>
      </figcaption>
      <Canvas make={arrivalPlot} view={view} text={text()} />
    </figure>
  );
}
