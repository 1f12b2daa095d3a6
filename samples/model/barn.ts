/** The scenario of the demo kit: the drums in a rehearsal barn and its tack room. Sizes only; every name is made up. */
import type { Drum } from './drum';
import { along, type Point, type Room } from './room';

export const BARN: Room = {
  size: [7.2, 5.4, 3.1],
  floor: 0.75,
  ceiling: 0.5,
  walls: 0.6,
  dullHz: 3500,
  tailDb: -30,
  tail60Seconds: 0.35,
};

export const TACK_ROOM: Room = { ...BARN, size: [3.4, 2.9, 2.4], tailDb: -30, tail60Seconds: 0.25 };

/** 36 cm across, 14 cm deep, with wires. */
export const SNARE: Drum = {
  head: [2.2, 2.4, 0.66],
  axis: [0, 0, -1],
  radiusM: 0.178,
  depthM: 0.14,
  lowestHz: 196,
  opposedHz: 334,
  otherHeadRatio: 1.21,
  decay60Seconds: 0.45,
  tone: 3,
  contactSeconds: 2.2e-4,
  clickSeconds: 0,
  crack: 0.5,
  wires: 0.6,
};
/** Where the stick usually lands: 3 cm towards the player. */
export const SNARE_PLACE: Point = [2.2, 2.37, 0.66];

/** 56 cm across, 42 cm deep, felt beater with a hard core, damped. */
export const KICK: Drum = {
  head: [3.0, 2.2, 0.3],
  axis: [0, 1, 0],
  radiusM: 0.28,
  depthM: 0.42,
  lowestHz: 56,
  opposedHz: 94,
  otherHeadRatio: 1.15,
  decay60Seconds: 0.42,
  tone: 1.6,
  contactSeconds: 1e-3,
  clickSeconds: 3e-4,
  crack: 0.08,
  wires: 0,
};
export const KICK_PLACE: Point = [3.0, 2.2, 0.33];

/** 40 cm across and deep. */
export const FLOOR_TOM: Drum = {
  head: [2.5, 1.55, 0.62],
  axis: [0, 0, -1],
  radiusM: 0.2,
  depthM: 0.4,
  lowestHz: 88,
  opposedHz: 143,
  otherHeadRatio: 1.1,
  decay60Seconds: 0.8,
  tone: 2.5,
  contactSeconds: 4e-4,
  clickSeconds: 0,
  crack: 0.15,
  wires: 0,
};
export const FLOOR_TOM_PLACE: Point = [2.54, 1.58, 0.62];

/** A hand drum next door, 30 cm across: flesh is a soft beater. */
export const HAND_DRUM: Drum = {
  head: [1.5, 1.3, 0.7],
  axis: [0, 0, -1],
  radiusM: 0.15,
  depthM: 0.3,
  lowestHz: 231,
  opposedHz: 388,
  otherHeadRatio: 1,
  decay60Seconds: 0.3,
  tone: 2,
  contactSeconds: 6e-4,
  clickSeconds: 0,
  crack: 0.2,
  wires: 0,
};
export const HAND_DRUM_PLACE: Point = [1.55, 1.32, 0.7];

/** A cymbal over the kick. */
export const CYMBAL_PLACE: Point = [3.5, 2.6, 1.2];

/** A capsule at an exact distance from the place struck. */
export function capsule(place: Point, direction: Point, centimetres: number): Point {
  return along(place, direction, centimetres / 100);
}
