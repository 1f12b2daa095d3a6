/** What stands on the bench, in ink: a snare or a kick cut through the middle, or a kit from the front. */
import { type JSX, Match, Switch } from 'solid-js';
import { KICK, KIT, SNARE } from '../../../teaching/bench/drums';
import type { DrumId } from '../../../teaching/bench/model';
import type { Scale } from './scale';

/** how far a head is drawn to go, cm */
const DIP_CM = 5;

/** @param props.dip of the heads, 0…1 */
export function DrumShapes(props: { drum: DrumId; scale: Scale; dip: number }): JSX.Element {
  return (
    <Switch>
      <Match when={props.drum === 'snare'}>
        <Snare scale={props.scale} dip={props.dip} />
      </Match>
      <Match when={props.drum === 'kick'}>
        <Kick scale={props.scale} dip={props.dip} />
      </Match>
      <Match when={props.drum === 'kit'}>
        <Kit scale={props.scale} />
      </Match>
    </Switch>
  );
}

function Snare(props: { scale: Scale; dip: number }): JSX.Element {
  const { radiusCm: r, depthCm } = SNARE;
  const x = (cm: number): number => props.scale.x(cm);
  const y = (cm: number): number => props.scale.y(cm);
  const head = (at: number): string => `M${x(-r)} ${y(at)}Q${x(0)} ${y(at - 2 * DIP_CM * props.dip)} ${x(r)} ${y(at)}`;
  const half = depthCm / 2;
  return (
    <g class="bench-drum">
      <path class="bench-shell" d={`M${x(-r)} ${y(half)}V${y(-half)}H${x(r)}V${y(half)}Z`} />
      <path class="bench-hoop" d={hoops(x(-r), x(r), [y(half), y(-half)], 1.2 * props.scale.perCm)} />
      <path class="bench-head" d={head(half)} />
      <path class="bench-head" d={head(-half)} />
      <path class="bench-wires" d={`M${x(-r * 0.7)} ${y(-half - 0.9)}H${x(r * 0.7)}`} />
      <path class="bench-stick" d={`M${x(0)} ${y(half + 0.8)}L${x(29)} ${y(half + 3)}`} />
    </g>
  );
}

/** The rims' ends, beyond the shell. */
const hoops = (left: number, right: number, tops: readonly number[], out: number): string =>
  tops.map((top) => `M${left - out} ${top}H${left}M${right} ${top}H${right + out}`).join('');

function Kick(props: { scale: Scale; dip: number }): JSX.Element {
  const { radiusCm: r, depthCm } = KICK;
  const x = (cm: number): number => props.scale.x(cm);
  const y = (cm: number): number => props.scale.y(cm);
  const bow = (at: number): number => x(at + 2 * DIP_CM * props.dip);
  return (
    <g class="bench-drum">
      <path class="bench-shell" d={`M${x(0)} ${y(r)}H${x(depthCm)}V${y(-r)}H${x(0)}Z`} />
      <path class="bench-head" d={`M${x(0)} ${y(r)}Q${bow(0)} ${y(0)} ${x(0)} ${y(-r)}`} />
      {/* the front head has a port, which a mic goes in through */}
      <path class="bench-head" d={`M${x(depthCm)} ${y(r)}Q${bow(depthCm)} ${y(0)} ${x(depthCm)} ${y(-r)}`} />
      <path class="bench-stick" d={`M${x(-1.5)} ${y(0)}Q${x(-13)} ${y(-6)} ${x(-16)} ${y(-r - 4)}`} />
      <circle class="bench-beater" cx={x(-2)} cy={y(0)} r={2 * props.scale.perCm} />
      <path class="bench-hoop" d={`M${x(-44)} ${y(-r - 4)}H${x(102)}`} />
    </g>
  );
}

function Kit(props: { scale: Scale }): JSX.Element {
  const x = (cm: number): number => props.scale.x(cm);
  const y = (cm: number): number => props.scale.y(cm);
  const drum = ({ xCm, yCm, radiusCm, depthCm }: typeof KIT.snare | typeof KIT.floorTom): string =>
    `M${x(xCm - radiusCm)} ${y(yCm)}H${x(xCm + radiusCm)}V${y(yCm - depthCm)}H${x(xCm - radiusCm)}Z`;
  const cymbal = (xCm: number, yCm: number, half: number): string =>
    `M${x(xCm - half)} ${y(yCm - 3)}Q${x(xCm)} ${y(yCm + 5)} ${x(xCm + half)} ${y(yCm - 3)}M${x(xCm)} ${y(yCm + 1)}V${y(2)}`;
  return (
    <g class="bench-drum">
      <path class="bench-hoop" d={`M${x(-148)} ${y(2)}H${x(148)}`} />
      <path class="bench-hoop" d={cymbal(-74, 92, 18)} />
      <path class="bench-hoop" d={cymbal(-60, 126, 24)} />
      <path class="bench-hoop" d={cymbal(92, 118, 28)} />
      <circle
        class="bench-shell"
        cx={x(KIT.kick.xCm)}
        cy={y(KIT.kick.yCm + 2)}
        r={KIT.kick.radiusCm * props.scale.perCm}
      />
      <path class="bench-shell" d={drum(KIT.snare)} />
      <path class="bench-shell" d={drum(KIT.floorTom)} />
      <path
        class="bench-hoop"
        d={`M${x(KIT.snare.xCm)} ${y(KIT.snare.yCm - KIT.snare.depthCm)}V${y(2)}M${x(46)} ${y(18)}V${y(2)}M${x(78)} ${y(18)}V${y(2)}`}
      />
    </g>
  );
}
