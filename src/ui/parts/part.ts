/** A part of the page that is fetched when it is first wanted, and kept from then on. */
import { type Accessor, batch, createSignal } from 'solid-js';

/** `again`: it failed, and is being asked for once more */
export type PartFate = 'not-asked' | 'loading' | 'here' | 'failed' | 'again';

export interface Part<T> {
  /** what it is, as a sentence begins with it: "The kit sheet" */
  name: string;
  /** null until it is here; never anything else after that */
  here: Accessor<T | null>;
  fate: Accessor<PartFate>;
  /** it couldn’t be had, and isn’t here yet */
  missing: Accessor<boolean>;
  /** asks for it once, and again only after a failure. @returns null where it can’t be had now */
  fetch(): Promise<T | null>;
}

/**
 * @param load fetches the program; rejects where the server doesn’t give it
 * @param make what the part is once its program is here; called once. Without it the part is the program
 */
export function createPart<T extends object>(name: string, load: () => Promise<T>): Part<T>;
export function createPart<Program, T extends object>(
  name: string,
  load: () => Promise<Program>,
  make: (program: Program) => T,
): Part<T>;
export function createPart<Program, T extends object>(
  name: string,
  load: () => Promise<Program>,
  make = (program: Program): T => program as unknown as T,
): Part<T> {
  const [here, setHere] = createSignal<T | null>(null);
  const [fate, setFate] = createSignal<PartFate>('not-asked');
  let asked: Promise<T | null> | null = null;

  async function ask(): Promise<T | null> {
    setFate(fate() === 'failed' ? 'again' : 'loading');
    let program: Program;
    try {
      program = await load();
    } catch {
      asked = null;
      setFate('failed');
      return null;
    }
    const part = make(program);
    batch(() => {
      setHere(() => part);
      setFate('here');
    });
    return part;
  }

  return {
    name,
    here,
    fate,
    missing: () => fate() === 'failed' || fate() === 'again',
    fetch() {
      asked ??= ask();
      return asked;
    },
  };
}
