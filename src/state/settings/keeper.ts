/** A place to remember small strings. Storage can be refused (private windows, policies): then nothing is remembered, and nothing breaks. */
export interface Keeper {
  get(key: string): string | null;
  set(key: string, value: string): void;
}

const PREFIX = 'crosshead.';

/** localStorage behind guards. */
export function browserKeeper(): Keeper {
  return {
    get(key) {
      try {
        return localStorage.getItem(PREFIX + key);
      } catch {
        return null;
      }
    },
    set(key, value) {
      try {
        localStorage.setItem(PREFIX + key, value);
      } catch {
        // refused or full: the setting lives until the page is closed
      }
    },
  };
}

/** For tests and for pages without storage. */
export function memoryKeeper(): Keeper {
  const map = new Map<string, string>();
  return { get: (key) => map.get(key) ?? null, set: (key, value) => void map.set(key, value) };
}
