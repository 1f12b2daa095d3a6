/** What is wrong: with what was asked for last, and with the source, for as long as it is so. */
import { type Accessor, batch, createSignal } from 'solid-js';
import type { Problem } from '../../audio/link';

type Code = Problem['code'];

/** After these a person has to do something; what comes from the source meanwhile, if anything, is no reading. */
const STOPPING: readonly Code[] = ['worklet-fault', 'no-worklet', 'input-lost', 'input-changed', 'mixed-channels'];
/** These may be over by themselves, and it goes on. */
const WAITING: readonly Code[] = ['input-muted', 'no-data', 'dropped-audio'];
/** The first of those that stand is the one that is told: it is behind the others. */
const ORDER: readonly Code[] = [...STOPPING, ...WAITING];

export interface Troubles {
  /** the one that is told: what a press came to, else what is wrong with the source; null: none, or its note was closed */
  problem: Accessor<Problem | null>;
  /** wrong with the source still, though its note was closed */
  aside: Accessor<Problem | null>;
}

export interface TroublesActions extends Troubles {
  /** what a press came to; null: it went well */
  setPassing(problem: Problem | null): void;
  /** of the source: from here on, until it is over */
  stand(problem: Problem): void;
  over(code: Code): void;
  /** another source, or none */
  clear(): void;
  /** whether anything is wrong with the source, and what the worst of it does to the meter */
  standing: Accessor<Problem | null>;
  halts: Accessor<'stopped' | 'waiting' | null>;
  /** its note is put up again */
  sayAgain(): void;
  /** the note that is up is closed */
  close(): void;
}

export function createTroubles(): TroublesActions {
  const [passing, setPassing] = createSignal<Problem | null>(null);
  const [all, setAll] = createSignal<readonly Problem[]>([]);
  const [closed, setClosed] = createSignal(false);
  const rank = ({ code }: Problem): number => (ORDER.includes(code) ? ORDER.indexOf(code) : ORDER.length);
  const standing = (): Problem | null => [...all()].sort((one, other) => rank(one) - rank(other))[0] ?? null;
  const others = (code: Code): Problem[] => all().filter((one) => one.code !== code);
  return {
    problem: () => passing() ?? (closed() ? null : standing()),
    aside: () => (closed() && passing() === null ? standing() : null),
    setPassing,
    stand(problem) {
      batch(() => {
        if (!all().some(({ code }) => code === problem.code)) setClosed(false);
        setAll([...others(problem.code), problem]);
      });
    },
    over: (code) => void setAll(others(code)),
    clear() {
      batch(() => {
        setAll([]);
        setClosed(false);
      });
    },
    standing,
    halts() {
      const code = standing()?.code;
      if (code === undefined) return null;
      return STOPPING.includes(code) ? 'stopped' : WAITING.includes(code) ? 'waiting' : null;
    },
    sayAgain: () => void setClosed(false),
    close() {
      if (passing() !== null) setPassing(null);
      else setClosed(true);
    },
  };
}
