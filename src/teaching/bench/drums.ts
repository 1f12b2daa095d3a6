/** What stands on the bench: drums as they lie in the drawing's plane, where they are hit, where a mic can stand. Sizes are usual ones (common practice, no source). */
import type { Bench, BenchMic, DrumId, HitId, MicId, Spot } from './model';

/** A rectangle, cm. */
export interface Room {
  leftCm: number;
  rightCm: number;
  bottomCm: number;
  topCm: number;
}

export interface HitPlace {
  at: Spot;
  /** unit length: out of the head, to the side that it is hit from; the head goes the other way */
  towards: Spot;
}

export interface DrumPlan {
  /** what the drawing shows */
  view: Room;
  hits: Readonly<Partial<Record<HitId, HitPlace>>>;
  /** where a mic's grille can be put: it never stands in a head or in a shell, and its body is still to be seen */
  rooms: readonly Room[];
}

export const SNARE = { radiusCm: 18, depthCm: 14 } as const;
export const KICK = { radiusCm: 28, depthCm: 42 } as const;
/** the drums of the kit, from the front: middle of the upper head, half its width, depth of the shell */
export const KIT = {
  snare: { xCm: -28, yCm: 62, radiusCm: 18, depthCm: 14 },
  floorTom: { xCm: 62, yCm: 58, radiusCm: 20, depthCm: 40 },
  kick: { xCm: 14, yCm: 28, radiusCm: 28 },
} as const;

const UP: Spot = { xCm: 0, yCm: 1 };

export const DRUMS: Readonly<Record<DrumId, DrumPlan>> = {
  snare: {
    view: { leftCm: -54, rightCm: 54, bottomCm: -42, topCm: 52 },
    hits: { snare: { at: { xCm: 0, yCm: SNARE.depthCm / 2 }, towards: UP } },
    rooms: [
      { leftCm: -50, rightCm: 50, bottomCm: SNARE.depthCm / 2 + 2, topCm: 46 },
      { leftCm: -50, rightCm: 50, bottomCm: -36, topCm: -SNARE.depthCm / 2 - 2 },
    ],
  },
  kick: {
    view: { leftCm: -46, rightCm: 104, bottomCm: -36, topCm: 46 },
    hits: { kick: { at: { xCm: 0, yCm: 0 }, towards: { xCm: -1, yCm: 0 } } },
    rooms: [
      { leftCm: -39, rightCm: -3, bottomCm: -30, topCm: 40 },
      { leftCm: 3, rightCm: KICK.depthCm - 3, bottomCm: 3 - KICK.radiusCm, topCm: KICK.radiusCm - 3 },
      { leftCm: KICK.depthCm + 3, rightCm: 97, bottomCm: -30, topCm: 40 },
    ],
  },
  kit: {
    view: { leftCm: -150, rightCm: 150, bottomCm: 0, topCm: 238 },
    hits: {
      snare: { at: { xCm: KIT.snare.xCm, yCm: KIT.snare.yCm }, towards: UP },
      'floor-tom': { at: { xCm: KIT.floorTom.xCm, yCm: KIT.floorTom.yCm }, towards: UP },
    },
    rooms: [{ leftCm: -134, rightCm: 134, bottomCm: 66, topCm: 222 }],
  },
};

/** Of a hit that this drum doesn't have, its first one's. */
export function hitPlace({ drum, hit }: Pick<Bench, 'drum' | 'hit'>): HitPlace {
  const { hits } = DRUMS[drum];
  return hits[hit] ?? (Object.values(hits)[0] as HitPlace);
}

export const distanceCm = (p: Spot, q: Spot): number => Math.hypot(p.xCm - q.xCm, p.yCm - q.yCm);

/** From the grille straight back, away from the place hit. */
export function capsuleAt(bench: Pick<Bench, 'drum' | 'hit'>, { grille, bodyCm }: BenchMic): Spot {
  const { at } = hitPlace(bench);
  const path = distanceCm(grille, at);
  const back = path > 0 ? bodyCm / path : 0;
  return { xCm: grille.xCm + (grille.xCm - at.xCm) * back, yCm: grille.yCm + (grille.yCm - at.yCm) * back };
}

/** From the place hit to the capsule, where the mic stands as far off as it can. */
export function mostPathCm(bench: Bench, mic: MicId): number {
  const { at } = hitPlace(bench);
  const corners = DRUMS[bench.drum].rooms.flatMap(({ leftCm, rightCm, bottomCm, topCm }) =>
    [leftCm, rightCm].flatMap((xCm) => [bottomCm, topCm].map((yCm) => ({ xCm, yCm }))),
  );
  return Math.max(...corners.map((corner) => distanceCm(corner, at))) + bench[mic].bodyCm;
}

/** Next to `to` where a mic can stand. */
export function nearestPlace(drum: DrumId, to: Spot): Spot {
  const inside = ({ leftCm, rightCm, bottomCm, topCm }: Room): Spot => ({
    xCm: Math.min(rightCm, Math.max(leftCm, to.xCm)),
    yCm: Math.min(topCm, Math.max(bottomCm, to.yCm)),
  });
  return DRUMS[drum].rooms.map(inside).reduce((best, one) => (distanceCm(one, to) < distanceCm(best, to) ? one : best));
}

/** Which of the drum's rooms the mic stands in: its place in the list. */
export function roomOf(drum: DrumId, { xCm, yCm }: Spot): number {
  return DRUMS[drum].rooms.findIndex(
    ({ leftCm, rightCm, bottomCm, topCm }) => xCm >= leftCm && xCm <= rightCm && yCm >= bottomCm && yCm <= topCm,
  );
}
