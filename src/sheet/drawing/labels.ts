/**
 * All names and marks of a drawing, none on another. They are tried in several orders: a name that is missing counts more than any
 * mark, what is next or to be done more than what is settled.
 */
import { type Box, type Curve, outside, overlap, type Point } from './geometry';
import { anySpot, asideSpot, type LinePoints, linePoints, type MarkSpot, markSpot, nameSpot, type Size } from './spots';

export interface ToLabel {
  size: Size;
  /** of a microphone's circle */
  reach: number;
  /** what nothing may cover */
  taken: readonly Box[];
  names: readonly { at: Point; room: Size }[];
  /** drums, each with its name somewhere within */
  skins: readonly { at: Point; reach: Point; room: Size }[];
  /** the most wanted first */
  marks: readonly { id: string; line: number; curve: Curve; room: Size; urgent: boolean; next: boolean }[];
  /** points on each line, so near to each other that nothing slips between */
  lines: readonly (readonly Point[])[];
  /** true: marks stand at their lines only, which is worked out sooner */
  hasty?: boolean;
  /** true: the stroke that leads to a mark may cross other lines rather than that there is none */
  crossing?: boolean;
}

export interface Labels {
  names: (Box | null)[];
  skins: (Box | null)[];
  marks: Map<string, MarkSpot>;
}

/** lines; more are a crowd */
export const MANY = 80;
/** More marks have no room in any drawing, and take long to try. */
const MOST_MARKS = 60;

type Step = 'names' | 'skins' | 'urgent' | 'rest';

const ORDERS: readonly (readonly Step[])[] = [
  ['names', 'skins', 'urgent', 'rest'],
  ['urgent', 'names', 'skins', 'rest'],
  ['urgent', 'rest', 'names', 'skins'],
];
/** a name that is missing, and a mark that has room */
const WORTH = { name: -100, next: 250, urgent: 3, rest: 1 };

const kindOf = ({ next, urgent }: ToLabel['marks'][number]): 'next' | 'urgent' | 'rest' =>
  next ? 'next' : urgent ? 'urgent' : 'rest';

export function labels(what: ToLabel): Labels {
  const worth = ({ names, marks }: Labels): number =>
    what.marks.reduce((sum, one) => sum + (marks.has(one.id) ? WORTH[kindOf(one)] : 0), 0) +
    WORTH.name * names.filter((box) => box === null).length;
  const rows = linePoints(what.lines);
  let best: Labels | null = null;
  // a crowd is read in the lists: there one order must do
  for (const order of what.lines.length > MANY ? ORDERS.slice(0, 1) : ORDERS) {
    const found = placed(what, order, rows);
    if (best === null || worth(found) > worth(best)) best = found;
  }
  return best as Labels;
}

function placed(what: ToLabel, order: readonly Step[], rows: LinePoints): Labels {
  const { size, reach, names, skins, marks } = what;
  const taken = [...what.taken];
  const found: Labels = { names: [], skins: [], marks: new Map() };
  const took = (box: Box | null): Box | null => {
    if (box) taken.push(box);
    return box;
  };
  const mark = (wanted: boolean): void => {
    for (const { id, line, curve, room, urgent, next } of marks.slice(0, MOST_MARKS)) {
      if (urgent !== wanted) continue;
      // what is next tells no reading: it may lie on another line rather than nowhere
      const spot =
        markSpot(curve, line, room, taken, rows, size) ??
        (what.hasty ? null : asideSpot(curve, line, room, taken, rows, size, false)) ??
        (what.crossing ? asideSpot(curve, line, room, taken, rows, size, true) : null) ??
        (next ? anySpot(curve, room, taken, size) : null);
      if (!spot) continue;
      taken.push(spot.box);
      found.marks.set(id, spot);
    }
  };
  const steps: Readonly<Record<Step, () => void>> = {
    names: () => {
      found.names = names.map(({ at, room }) => took(nameSpot(at, reach, room, taken, rows, size)));
    },
    skins: () => {
      found.skins = skins.map((skin) => took(skinSpot(skin, taken, size)));
    },
    urgent: () => mark(true),
    rest: () => mark(false),
  };
  for (const step of order) steps[step]();
  return found;
}

/** of half its height, from its middle */
const WITHIN = [0, 0.45, -0.45, 0.8, -0.8];

function skinSpot({ at, reach, room }: ToLabel['skins'][number], taken: readonly Box[], size: Size): Box | null {
  const boxes = WITHIN.map((k): Box => ({ x: at.x, y: at.y + k * reach.y, ...room }));
  const isFree = (box: Box): boolean => outside(box, size) === 0 && taken.every((other) => overlap(box, other) === 0);
  return boxes.find(isFree) ?? null;
}
