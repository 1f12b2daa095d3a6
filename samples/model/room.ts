/** Where things are: points in metres, the box that they stand in, and its first reflections. */
export type Point = readonly [x: number, y: number, z: number];

export function distance(p: Point, q: Point): number {
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
}

export function along(p: Point, direction: Point, metres: number): Point {
  const size = Math.hypot(...direction);
  return [
    p[0] + (direction[0] / size) * metres,
    p[1] + (direction[1] / size) * metres,
    p[2] + (direction[2] / size) * metres,
  ];
}

export function dot(p: Point, q: Point): number {
  return p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
}

export function minus(p: Point, q: Point): Point {
  return [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
}

export interface Room {
  /** metres from the corner at 0, 0, 0; z up */
  size: Point;
  /** share of the pressure that comes back: floor, ceiling, walls */
  floor: number;
  ceiling: number;
  walls: number;
  /** above this the surfaces swallow more, Hz */
  dullHz: number;
  /** late sound: level re the direct sound at 1 m, dB, and its time to fall by 60 dB */
  tailDb: number;
  tail60Seconds: number;
}

/** The microphone's mirror image behind each of the six surfaces, with the share that comes back. */
export function mirrorImages(room: Room, microphone: Point): { at: Point; share: number }[] {
  const [x, y, z] = microphone;
  const [w, d, h] = room.size;
  return [
    { at: [x, y, -z], share: room.floor },
    { at: [x, y, 2 * h - z], share: room.ceiling },
    { at: [-x, y, z], share: room.walls },
    { at: [2 * w - x, y, z], share: room.walls },
    { at: [x, -y, z], share: room.walls },
    { at: [x, 2 * d - y, z], share: room.walls },
  ];
}
