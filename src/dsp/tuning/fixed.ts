/** Objects that nobody changes. */

export type DeepReadonly<T> = T extends object ? { readonly [K in keyof T]: DeepReadonly<T[K]> } : T;

/** Freeze x and all that is in it. Real-time safe: no. @returns x */
export function fixed<T extends object>(x: T): DeepReadonly<T> {
  for (const part of Object.values(x)) if (typeof part === 'object' && part !== null) fixed(part);
  return Object.freeze(x) as DeepReadonly<T>;
}
