/** How long the browser keeps what is saved: it may clear it when space runs short, unless it is asked not to and agrees. */
import { type Accessor, createSignal } from 'solid-js';

/** What of the browser's storage manager is used (Storage Standard, StorageManager). */
export interface Persistence {
  /** whether it agreed before */
  persisted(): Promise<boolean>;
  /** asks it; some browsers ask the person */
  persist(): Promise<boolean>;
}

/** `unknown`: it wasn't asked yet, or doesn't say */
export type Lasting = 'unknown' | 'kept' | 'may-be-cleared';

export interface LastingAsked {
  lasting: Accessor<Lasting>;
  /** once, when something is saved that a person would miss */
  ask(): void;
}

export function createLasting(persistence: Persistence | null): LastingAsked {
  const [lasting, setLasting] = createSignal<Lasting>('unknown');
  let asked = false;
  return {
    lasting,
    ask() {
      if (asked || persistence === null) return;
      asked = true;
      const answer = persistence.persisted().then((before) => before || persistence.persist());
      answer.then(
        (agreed) => void setLasting(agreed ? 'kept' : 'may-be-cleared'),
        () => void setLasting('may-be-cleared'),
      );
    },
  };
}
