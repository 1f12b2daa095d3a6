/** The correlation trace with its bands. */
import { createSignal, createUniqueId, For, type JSX } from 'solid-js';
import { HISTORY_SECONDS, TraceHistory } from '../../state/views/traceHistory';
import { TRACE_BAND_LIST } from '../../state/views/traceView';
import { bandText } from '../../text/frequency';
import { dataNumber, fixed, orNoValue, signed } from '../../text/number';
import { fixedSeconds } from '../../text/time';
import { useApp } from '../shared/appScope';
import { Key } from '../shared/Key';
import type { Command } from '../shared/keys';
import { SumPress } from '../shared/SumPress';
import { Canvas, Slot } from './Canvas';
import type { ReadOut } from './keyTo';
import { tracePlot } from './plots';
import { traceAt } from './readOut';

export function TraceFigure(): JSX.Element {
  const { meter, settings, shown } = useApp();
  const nothing = new TraceHistory();
  const group = createUniqueId();
  const band = () => TRACE_BAND_LIST[settings.traceBand()] as (typeof TRACE_BAND_LIST)[number];
  const history = () => (shown.patching() ? nothing : meter.history);
  const view = () => {
    meter.reading();
    return { history: history(), bandIndex: settings.traceBand(), band: band() };
  };
  const value = (): number | null => {
    const reading = shown.reading();
    if (!reading) return null;
    const index = settings.traceBand();
    return index === 0 ? reading.sum.correlation : (reading.sum.bands[index - 1]?.correlation ?? null);
  };
  const [at, setAt] = createSignal<number | null>(null);
  const readOut: ReadOut = {
    name: 'Correlation of A and B, the last 30 seconds',
    get text() {
      return `${band().title}: ${value() === null ? 'no value' : signed(value() as number, 2)} over the hits used.`;
    },
    get at() {
      return at();
    },
    set: setAt,
    min: -HISTORY_SECONDS,
    max: 0,
    step: 0.25,
    stride: 5,
    start: 0,
    say(seconds) {
      meter.reading();
      return traceAt(history(), settings.traceBand(), seconds);
    },
  };
  return (
    <figure class="figure trace" data-band={settings.traceBand()} data-correlation={dataNumber(value())}>
      <figcaption>
        <SumPress of="correlation">
          <b>Correlation, 30 s</b>
        </SumPress>
        <Slot readOut={readOut}>
          over the hits <b>{orNoValue(value(), (r) => signed(r, 2))}</b>
        </Slot>
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
      <Canvas make={tracePlot} view={view} readOut={readOut} />
    </figure>
  );
}
