/**
 * A drum of two heads, struck on one: which sound leaves on which side, and with which sign.
 *
 * The blow pushes the batter head inwards. Outside in front of that head the air is first thinned (−), inside and beyond the
 * other head it is first compressed (+): two microphones wired alike on either side start in opposite directions.
 * The lowest mode exists twice, coupled by the air within: both heads one way, and both inwards (T. D. Rossing, "Science of
 * Percussion Instruments"; N. H. Fletcher, T. D. Rossing, "The Physics of Musical Instruments", ch. 18; not seen).
 * That two heads coupled by the air within move either together or against each other: T. D. Rossing, J. Acoust. Soc. Am. 85 (1989) S33.
 */
import { highPass2, lowPass2 } from './biquad';
import { addContact, addMode, addPush, Burst } from './excitation';
import { INNER_RATE, type Loop } from './loop';
import type { Random } from './random';
import { distance, dot, minus, type Point } from './room';

export type Side = 'batter' | 'inside' | 'resonant';

export interface Drum {
  /** middle of the head that is struck */
  head: Point;
  /** unit vector from the batter head to the other */
  axis: Point;
  radiusM: number;
  depthM: number;
  /** lowest mode, both heads one way, and the second one, both inwards, Hz */
  lowestHz: number;
  opposedHz: number;
  /** the other head's tuning re the batter head's, for the modes above */
  otherHeadRatio: number;
  /** time of the lowest mode to fall by 60 dB; higher modes fall sooner */
  decay60Seconds: number;
  /** level of the modes re the first push */
  tone: number;
  /** contact with the stick or beater at medium force; `clickSeconds` its hard core, 0 where there is none */
  contactSeconds: number;
  clickSeconds: number;
  /** noise of the stroke itself re the push */
  crack: number;
  /** noise of the wires re the push, 0 without */
  wires: number;
  /** each mode's start, radians: 0 (all of them, where absent) velocity, π/2 displacement, which rises from rest */
  modeTurns?: readonly number[];
}

export interface Blow {
  timeSeconds: number;
  /** amplitude, 1 = medium */
  force: number;
  place: Point;
  crack: Burst;
  wires: Burst | null;
}

export function makeBlow(drum: Drum, timeSeconds: number, force: number, place: Point, random: Random): Blow {
  const crack = new Burst(random, [highPass2(1500, 0.7, INNER_RATE), lowPass2(9000, 0.7, INNER_RATE)], 3e-4, 0.05);
  const wires =
    drum.wires > 0
      ? new Burst(random, [highPass2(1800, 0.7, INNER_RATE), lowPass2(8000, 0.7, INNER_RATE)], 2e-3, 0.22)
      : null;
  return { timeSeconds, force, place, crack, wires };
}

/** Zeros of the Bessel functions, m and j(m,n) (SciPy: tests/reference/figures.py): a membrane's modes at 1, 1.59, 2.14, 2.30, 2.65, 2.92, 3.16 … of the lowest. */
export const MODES: readonly [m: number, zero: number][] = [
  [0, 2.4048],
  [1, 3.8317],
  [2, 5.1356],
  [0, 5.5201],
  [3, 6.3802],
  [1, 7.0156],
  [4, 7.5883],
  [2, 8.4172],
  [0, 8.6537],
];
/** Largest value of J0 … J4, to bring the shapes to one scale. SciPy: tests/reference/figures.py. */
export const SHAPE_MAX = [1, 0.5819, 0.4865, 0.4344, 0.3997];
/** How well modes without and with nodal diameters are heard from afar. */
const FAR = [0.6, 0.25, 0.12, 0.06, 0.03];

/** Sign and weight of push, together and opposed lowest mode, and higher modes on each side. */
const SIDES: Record<Side, { push: number; together: number; opposed: number; higher: number; wires: number }> = {
  batter: { push: -1, together: -1, opposed: -0.4, higher: -1, wires: 0.35 },
  inside: { push: 1, together: 0.4, opposed: 0.6, higher: 0.5, wires: 0.6 },
  resonant: { push: 1, together: 1, opposed: -0.4, higher: 0.5, wires: 1 },
};

/** Where a blow is heard: `at` null is a point 1 m off on that side, the reference of all reflections. */
export interface Ear {
  side: Side;
  at: Point | null;
}

/** Adds one blow as it arrives at an ear, with the exact delay and the 1/r law from the place struck. */
export function addBlow(to: Loop, drum: Drum, blow: Blow, ear: Ear, speed: number): void {
  const path = ear.at ? distance(ear.at, blow.place) : 1;
  const onset = blow.timeSeconds + (ear.at ? path / speed : 0);
  const gain = blow.force / path;
  const side = SIDES[ear.side];
  // a harder blow is a shorter one
  const contact = drum.contactSeconds * blow.force ** -0.2;
  addPush(to, onset, side.push * gain, contact);
  if (drum.clickSeconds > 0) addContact(to, onset, 1.4 * side.push * gain, drum.clickSeconds);
  blow.crack.addTo(to, onset, side.push * drum.crack * gain);
  addModes(to, drum, blow, ear, onset, gain, contact);
  if (blow.wires) {
    const wiresAt: Point = [
      drum.head[0] + drum.axis[0] * drum.depthM,
      drum.head[1] + drum.axis[1] * drum.depthM,
      drum.head[2] + drum.axis[2] * drum.depthM,
    ];
    const moved = blow.timeSeconds + drum.depthM / speed + 4e-4;
    const far = ear.at ? distance(ear.at, wiresAt) : 1;
    blow.wires.addTo(to, moved + (ear.at ? far / speed : 0), (side.wires * drum.wires * blow.force) / far);
  }
}

function addModes(to: Loop, drum: Drum, blow: Blow, ear: Ear, onset: number, gain: number, contact: number): void {
  const struck = onHead(drum, blow.place);
  const heard = ear.at ? onHead(drum, ear.at) : null;
  const side = SIDES[ear.side];
  const height = heard && (ear.side === 'resonant' ? heard.along - drum.depthM : Math.abs(heard.along));
  MODES.forEach(([m, zero], index) => {
    const driven = shape(m, zero, struck.radius / drum.radiusM);
    let weight = FAR[m];
    if (heard && height !== null) {
      const angle = Math.cos(m * (heard.angle - struck.angle));
      // a mode slower than sound dies out above the head as exp(−kz)
      weight +=
        shape(m, zero, heard.radius / drum.radiusM) * angle * Math.exp((-zero / drum.radiusM) * Math.max(0, height));
    }
    const level = gain * drum.tone * driven * weight;
    const hz = (drum.lowestHz * zero) / MODES[0][1];
    const decay = drum.decay60Seconds * (drum.lowestHz / hz) ** 0.7;
    const turn = drum.modeTurns?.[index] ?? 0;
    if (index === 0) {
      addMode(to, onset, level * side.together, drum.lowestHz, decay, contact, turn);
      addMode(to, onset, level * side.opposed, drum.opposedHz, decay * 0.7, contact, turn);
    } else {
      const tuning = ear.side === 'resonant' ? drum.otherHeadRatio : 1;
      addMode(to, onset, 0.7 * level * side.higher, hz * tuning, decay, contact, turn);
    }
  });
}

/** A point in the drum's own terms: distance from the axis and along it (0 = batter head), and the angle about it. */
function onHead(drum: Drum, point: Point): { radius: number; along: number; angle: number } {
  const [ax, ay, az] = drum.axis;
  const away = minus(point, drum.head);
  const depth = dot(away, drum.axis);
  // two directions across the axis
  const u: Point = Math.abs(az) > 0.9 ? [1, 0, 0] : [-ay, ax, 0];
  const v: Point = [ay * u[2] - az * u[1], az * u[0] - ax * u[2], ax * u[1] - ay * u[0]];
  const p = dot(away, u);
  const q = dot(away, v);
  return { radius: Math.hypot(p, q), along: depth, angle: Math.atan2(q, p) };
}

/** J_m(j·r/a) on the scale −1…1, 0 beyond the rim. */
function shape(m: number, zero: number, share: number): number {
  return share >= 1 ? 0 : bessel(m, zero * share) / SHAPE_MAX[m];
}

/** Bessel function of the first kind by its power series; good for the small x here (below 9). */
function bessel(m: number, x: number): number {
  let term = 1;
  for (let k = 1; k <= m; k++) term *= x / 2 / k;
  let sum = term;
  for (let k = 1; k < 40; k++) {
    term *= -(x * x) / 4 / (k * (k + m));
    sum += term;
  }
  return sum;
}
