/** A band's level against how far B is moved, with either polarity: to look for a place, and to set the move there. */
import { createMemo, createSignal, createUniqueId, For, type JSX, untrack } from 'solid-js';
import { MOST_MOVE_CM } from '../../advice/tryOut/tried';
import { movedText } from '../../advice/words/tryWords';
import { BANDS } from '../../reading/bands';
import { type MoveView, moveView } from '../../state/views/triedView';
import { MOVE_STEP_CM } from '../../state/views/tryChoice';
import { bandText } from '../../text/frequency';
import { fixed, signed } from '../../text/number';
import { Canvas, Slot } from '../plots/Canvas';
import type { ReadOut } from '../plots/keyTo';
import { movePlot } from '../plots/movePlot';
import { LegendLine } from '../plots/SumLegends';
import { useApp } from '../shared/appScope';
import type { Try } from './createTry';

const NAMES: readonly string[] = [
  'low octave',
  'overall',
  ...BANDS.map(({ lowHz, highHz }) => bandText(lowHz, highHz)),
];

/** "2.4 cm closer: +3.1 dB inverted, −2.0 dB not inverted" */
function curveText({ cm, sameDb, otherDb, invertB }: MoveView, moveCm: number): string {
  const i = Math.max(
    0,
    Math.min(cm.length - 1, Math.round((moveCm - (cm[0] as number)) / ((cm[1] as number) - (cm[0] as number)))),
  );
  const db = (level: number | null | undefined): string => (level == null ? 'no value' : `${signed(level, 1)} dB`);
  const [inverted, plain] = invertB ? [sameDb[i], otherDb[i]] : [otherDb[i], sameDb[i]];
  return `${movedText(moveCm)}: ${db(plain)} as it is, ${db(inverted)} inverted`;
}

export function TryCurve(props: { it: Try }): JSX.Element {
  const { meter, trying } = useApp();
  const group = createUniqueId();
  const view = createMemo<MoveView | null>(() => {
    const reading = props.it.reading();
    const spots = props.it.spots();
    if (reading === null || spots === null) return null;
    return moveView(reading, untrack(meter.context), trying.tried(), trying.band(), spots);
  });
  const [at, setAt] = createSignal<number | null>(null);
  const marks = (): string =>
    (view()?.marks ?? [])
      .map(
        ({ what, spot, db }) =>
          `${what} ${movedText(spot.moveCm)}${spot.invertB ? ', inverted' : ''}${db === null ? '' : ` ${fixed(db, 1)} dB`}`,
      )
      .join('; ');
  const readOut: ReadOut = {
    get name() {
      return `How full A+B is, ${NAMES[trying.band()]}, against how far B is moved; sets the move`;
    },
    get text() {
      return `dB re one mic alone. ${marks()}`;
    },
    get at() {
      return at();
    },
    set: setAt,
    min: -MOST_MOVE_CM,
    max: MOST_MOVE_CM,
    step: MOVE_STEP_CM,
    stride: 1,
    get start() {
      return view()?.triedCm ?? 0;
    },
    say(cm) {
      const now = view();
      return now ? curveText(now, cm) : 'nothing measured yet';
    },
    take: trying.setMoveCm,
  };
  return (
    <figure
      class="figure try-curve"
      data-band={trying.band()}
      data-marks={(view()?.marks ?? [])
        .map(({ what, spot }) => `${what}:${spot.moveCm.toFixed(1)}:${spot.invertB ? 'inverted' : 'as-is'}`)
        .join(' ')}
    >
      <figcaption>
        <b>Level against the move</b>
        <fieldset class="bands">
          <legend class="unseen">Band</legend>
          <For each={NAMES}>
            {(name, n) => (
              <label class="band" classList={{ chosen: trying.band() === n() }}>
                <input type="radio" name={group} checked={trying.band() === n()} onChange={() => trying.setBand(n())} />
                {name}
              </label>
            )}
          </For>
        </fieldset>
        <span class="legends">
          <span class="legend">
            <LegendLine of="solid" /> {view()?.invertB ? 'inverted, as tried' : 'not inverted, as tried'}
          </span>
          <span class="legend">
            <LegendLine of="thin" /> {view()?.invertB ? 'not inverted' : 'inverted'}
          </span>
        </span>
        <Slot readOut={readOut}>Fullest: least move to within 0.3 dB of the loudest. Drag to move B</Slot>
      </figcaption>
      <Canvas make={movePlot} view={view} readOut={readOut} />
    </figure>
  );
}
