/** Tunings that differ from the engine's own, by dotted paths: for benches and tests. */
import { TUNING, type Tuning } from '../tuning';
import { fixed } from './fixed';

/** dotted path → value; arrays by number: `delay.motion.awayScatters.0` */
export type TuningChanges = Readonly<Record<string, number | boolean>>;

type Value = Node | number | boolean;
interface Node {
  [key: string]: Value;
}

/** Every path to a value, in the order of the object. */
function pathsOf(node: object, type: 'number' | 'boolean', before = ''): string[] {
  return Object.entries(node).flatMap(([key, value]): string[] => {
    if (typeof value === 'object' && value !== null) return pathsOf(value, type, `${before}${key}.`);
    return typeof value === type ? [before + key] : [];
  });
}

/** Path of every number. */
export const tuningPaths = (): string[] => pathsOf(TUNING, 'number');

/** Path of every part that can be switched off. */
export const tuningParts = (): string[] => pathsOf(TUNING, 'boolean');

/**
 * The engine's own tuning with these values in place of its own. Real-time safe: no.
 * @throws RangeError for a path that there isn't, or a number that isn't finite
 * @throws TypeError for a number where a part is switched, a switch where there is a number, or anything else
 */
export function tuned(changes: TuningChanges): Tuning {
  const copy = copyOf(TUNING) as Node;
  for (const [path, value] of Object.entries(changes)) {
    const keys = path.split('.');
    const last = keys.pop() as string;
    let node: Value | undefined = copy;
    for (const key of keys) node = partOf(node, key);
    const old = partOf(node, last);
    if (old === undefined) throw new RangeError(`${path} is no value of the tuning`);
    if (typeof old === 'object') throw new RangeError(`${path} is a section of the tuning, not a value`);
    if (typeof value !== typeof old) throw new TypeError(`${path} must be a ${typeof old} but was ${String(value)}`);
    if (typeof value === 'number' && !Number.isFinite(value))
      throw new RangeError(`${path} must be finite but was ${value}`);
    (node as Node)[last] = value;
  }
  return fixed(copy) as unknown as Tuning;
}

function copyOf(x: unknown): unknown {
  if (Array.isArray(x)) return x.map(copyOf);
  if (typeof x !== 'object' || x === null) return x;
  return Object.fromEntries(Object.entries(x).map(([key, value]) => [key, copyOf(value)]));
}

/** What a section holds under that name; undefined where it is no section, or has no such name. */
function partOf(node: Value | undefined, key: string): Value | undefined {
  return typeof node === 'object' && Object.keys(node).includes(key) ? node[key] : undefined;
}
