/** B's arrival against A's: the first pushes as they came, or how well the whole stroke fits at each delay. */
import { type Accessor, createMemo, createSignal, createUniqueId, For, type JSX, Show, untrack } from 'solid-js';
import { waveformsOf } from '../../advice/plan/whyFacts';
import { waveformsText } from '../../advice/words/whyWords';
import { speedOfSound } from '../../reading/acoustics';
import { answerOf } from '../../reading/reading';
import { arrivalKey, arrivalView } from '../../state/views/arrivalView';
import type { PushesView } from '../../state/views/pushesView';
import { hitsText } from '../../text/count';
import { dataNumber, NO_VALUE } from '../../text/number';
import { useApp } from '../shared/appScope';
import { figuresOf } from '../shared/figures';
import { Key } from '../shared/Key';
import { Canvas, Slot } from './Canvas';
import type { ReadOut } from './keyTo';
import type { CurveDrawing, PushesDrawing } from './paint/paintArrival';
import { curvePlot, pushesPlot } from './plots';
import { curveAt, hitNear, pushesAt } from './readOut';

/** so many steps of the keys across a plot, and so many of a page key */
const STEPS = 200;
const STRIDE = 10;

const WAY_TEXT = { 1: 'up', 0: 'not clear', [-1]: 'down' } as const;

interface Part<View> {
  view: Accessor<View>;
  readOut: ReadOut;
}

/** how far B is, as it is said elsewhere: beside the plot, and short in it */
interface Found {
  found: Accessor<string>;
  size: Accessor<string>;
}

const keys = (fromMs: number, lengthMs: number) => ({
  min: fromMs,
  max: fromMs + lengthMs,
  step: lengthMs / STEPS,
  stride: (STRIDE * lengthMs) / STEPS,
});

/** The first pushes, as they came. */
function createPushesPart(
  pushes: Accessor<PushesView | null>,
  { found, size }: Found,
): Part<{ pushes: PushesDrawing | null; marked: number | null }> {
  const { settings } = useApp();
  const [at, setAt] = createSignal<number | null>(null);
  const drawing = createMemo<PushesDrawing | null>(() => {
    const now = pushes();
    return now && { ...now, cmPerMs: speedOfSound(settings.temperatureC()) / 10, found: size() };
  });
  const marked = createMemo(() => hitNear(drawing(), at()));
  const range = () => keys(drawing()?.fromMs ?? 0, drawing()?.lengthMs ?? 1);
  return {
    view: () => ({ pushes: drawing(), marked: marked() }),
    readOut: {
      name: 'First pushes of A and B, ms after A’s',
      get text() {
        const now = drawing();
        if (now === null) return 'No first pushes yet.';
        const ways = `A’s goes ${WAY_TEXT[now.aWay]}, B’s ${WAY_TEXT[now.bWay]}`;
        return `${hitsText(now.a.length)} laid on each other: ${ways}. ${found() ? `${found()}.` : 'No delay holds.'}`;
      },
      get at() {
        return at();
      },
      set: setAt,
      get min() {
        return range().min;
      },
      get max() {
        return range().max;
      },
      get step() {
        return range().step;
      },
      get stride() {
        return range().stride;
      },
      get start() {
        return drawing()?.foundMs ?? 0;
      },
      say(ms) {
        const now = drawing();
        return now ? pushesAt(now, ms) : 'no first pushes yet';
      },
    },
  };
}

/** How well the whole stroke fits at each delay. */
function createCurvePart({ found, size }: Found): Part<CurveDrawing | null> {
  const { settings, shown } = useApp();
  const [at, setAt] = createSignal<number | null>(null);
  const key = createMemo(() => {
    const reading = shown.reading();
    return reading === null ? '' : `${arrivalKey(reading)}|${settings.temperatureC()}|${size()}`;
  });
  const view = createMemo<CurveDrawing | null>((last) => {
    key();
    const reading = untrack(shown.reading);
    if (!reading) return null;
    const cmPerMs = speedOfSound(untrack(settings.temperatureC)) / 10;
    return { ...arrivalView(reading, last?.rangeMs ?? 0), cmPerMs, found: untrack(size) };
  }, null);
  const wholeStroke = (): string => {
    view();
    const reading = untrack(shown.reading);
    const answer = reading && answerOf(reading);
    const witness = reading && answer?.state === 'measured' ? waveformsOf(reading, answer) : null;
    return witness ? ` ${waveformsText(witness)}` : '';
  };
  const range = () => keys(-(view()?.rangeMs ?? 1), 2 * (view()?.rangeMs ?? 1));
  return {
    view,
    readOut: {
      name: 'Delay curve: how well the whole stroke fits, against the delay of B',
      get text() {
        return found()
          ? `${hitsText(view()?.hits ?? 0)}. First push: ${found()}.${wholeStroke()}`
          : 'No delay found yet.';
      },
      get at() {
        return at();
      },
      set: setAt,
      get min() {
        return range().min;
      },
      get max() {
        return range().max;
      },
      get step() {
        return range().step;
      },
      get stride() {
        return range().stride;
      },
      get start() {
        return view()?.foundMs ?? 0;
      },
      say(ms) {
        const now = view();
        return now ? curveAt(now, ms) : 'no delay found yet';
      },
    },
  };
}

export function ArrivalFigure(props: { pushes: PushesView | null }): JSX.Element {
  const { plots, settings, shown } = useApp();
  const group = createUniqueId();
  const said = createMemo(() => {
    const rate = shown.reading()?.sampleRate ?? 1;
    return figuresOf(shown.answer(), rate, settings.temperatureC(), shown.advice());
  });
  const found = createMemo((): string => {
    const { path, delay } = said();
    return delay === NO_VALUE ? '' : `${path}, ${delay}`;
  });
  const size = createMemo(() => (found() ? said().size : ''));
  const pushes = createPushesPart(() => props.pushes, { found, size });
  const curve = createCurvePart({ found, size });
  return (
    <figure
      class="figure arrival"
      data-range-ms={dataNumber(curve.view()?.rangeMs, 2)}
      data-pushes={pushes.view().pushes?.a.length ?? 0}
      data-a-way={pushes.view().pushes?.aWay ?? 0}
      data-b-way={pushes.view().pushes?.bWay ?? 0}
    >
      <figcaption>
        <fieldset class="bands">
          <legend class="unseen">Arrival of B against A</legend>
          <For each={[false, true]}>
            {(on) => (
              <label
                class="band title"
                classList={{ chosen: plots.curve() === on }}
                title={
                  on
                    ? 'How well the whole stroke fits at each delay, downwards where it fits inverted'
                    : 'The hits used, laid on each other where A’s first push begins'
                }
              >
                <input
                  type="radio"
                  name={group}
                  data-command={on ? 'curve' : 'pushes'}
                  checked={plots.curve() === on}
                  onChange={() => plots.setCurve(on)}
                />
                {on ? 'Curve' : 'First pushes'}
                <Show when={on}>
                  {' '}
                  <Key of="curve" />
                </Show>
              </label>
            )}
          </For>
        </fieldset>
        <Slot readOut={plots.curve() ? curve.readOut : pushes.readOut}>{found() ? said().delay : 'none found'}</Slot>
      </figcaption>
      <Show when={plots.curve()} fallback={<Canvas make={pushesPlot} view={pushes.view} readOut={pushes.readOut} />}>
        <Canvas make={curvePlot} view={curve.view} readOut={curve.readOut} />
      </Show>
    </figure>
  );
}
