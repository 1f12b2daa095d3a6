/**
 * A group of named slots in an array of numbers, described once: the writer asks where a slot is, the reader unpacks the
 * whole group with the types that follow from the description. NaN stands for null.
 */
import type { Polarity } from './reading';

/** How one value lies in the array: so many numbers, and what they are read as. */
export interface Field<T> {
  slots: number;
  read(from: ArrayLike<number>, at: number): T;
}

const one = <T>(read: (x: number) => T): Field<T> => ({ slots: 1, read: (from, at) => read(from[at] as number) });

/** A number that always has a value. */
export const number = one((x) => x);
/** A number, or null. */
export const optional = one((x) => (Number.isNaN(x) ? null : x));
/** 1: true */
export const flag = one((x) => x === 1);
/** +1 same, −1 inverted, NaN none */
export const polarity = one<Polarity | null>((x) => (Number.isNaN(x) ? null : x > 0 ? 'same' : 'inverted'));
/** The place of a word in its list; `otherwise` for what is no place in it. */
export const word = <W extends string, O extends W | null>(list: readonly W[], otherwise: O): Field<W | O> =>
  one((x) => list[x] ?? otherwise);
/** So many values of one kind, one after the other. */
export const list = <T>(count: number, field: Field<T>): Field<T[]> => ({
  slots: count * field.slots,
  read: (from, at) => Array.from({ length: count }, (_, i) => field.read(from, at + i * field.slots)),
});

export type Fields = Readonly<Record<string, Field<unknown>>>;
export type Unpacked<F extends Fields> = { [K in keyof F]: F[K] extends Field<infer T> ? T : never };

export interface Group<F extends Fields> {
  /** numbers in one group */
  readonly length: number;
  /** place of each field's first number within the group */
  readonly slot: Readonly<Record<keyof F, number>>;
  /** Unpack the group that begins at `at`. Real-time safe: no (allocates). */
  read(from: ArrayLike<number>, at: number): Unpacked<F>;
}

/** Fields in the order of the description. */
export function group<F extends Fields>(fields: F): Group<F> {
  const slot: Record<string, number> = {};
  let length = 0;
  for (const [name, field] of Object.entries(fields)) {
    slot[name] = length;
    length += field.slots;
  }
  return {
    length,
    slot: slot as Record<keyof F, number>,
    read(from, at) {
      const read: Record<string, unknown> = {};
      for (const name of Object.keys(fields))
        read[name] = (fields[name] as Field<unknown>).read(from, at + (slot[name] as number));
      return read as Unpacked<F>;
    },
  };
}
