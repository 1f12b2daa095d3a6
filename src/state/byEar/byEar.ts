/** A blind round: the pair that is asked about, what was said of it, and the score. Kept for as long as the page is open. */
import { type Accessor, batch, createMemo, createSignal } from 'solid-js';
import type { DemoScene } from '../../audio/link';
import type { Version } from '../../listen/version';
import {
  type Answer,
  drawRound,
  type Heard,
  type KnownPair,
  LARGEST_ROUND,
  type Question,
} from '../../teaching/byEar/round';

export interface ByEar {
  /** 1…LARGEST_ROUND; what other people enter to hear the same pairs */
  round: Accessor<number>;
  questions: Accessor<readonly Question[]>;
  /** place of the one in hand; questions().length: the round is over */
  at: Accessor<number>;
  question: Accessor<Question | null>;
  /** what was said, in their order */
  answers: Accessor<readonly Answer[]>;
  /** what was said of the one in hand; null: nothing yet, and nothing is shown of it */
  said: Accessor<Answer | null>;
  rightSoFar: Accessor<number>;
  /** what can be heard: nothing of it tells which is which before there is an answer */
  versions: Accessor<readonly Version[]>;
  scene: Accessor<DemoScene | null>;
  answer(answer: Answer): void;
  next(): void;
  /** @returns false: there is no such round */
  begin(round: number): boolean;
}

/** one pair of drums a class, and what isn't one drum, or isn't known, can't be asked about */
const isKnown = (scene: DemoScene): boolean =>
  scene.polarity !== null && scene.delaySamples !== null && scene.kind !== 'two-overheads';

export function createByEar(scenes: Accessor<readonly DemoScene[]>, firstRound: () => number): ByEar {
  const [round, setRound] = createSignal(firstRound());
  const [at, setAt] = createSignal(0);
  const [answers, setAnswers] = createSignal<readonly Answer[]>([]);
  const questions = createMemo(() => {
    const pairs = scenes().filter(isKnown) as (DemoScene & KnownPair)[];
    return pairs.length === 0 ? [] : drawRound(round(), pairs);
  });
  const question = (): Question | null => questions()[at()] ?? null;
  const said = (): Answer | null => answers()[at()] ?? null;
  const versions = createMemo((): Version[] => {
    const it = question();
    if (it === null) return [];
    const version = (id: string, { invertB, delayBSamples }: Heard): Version => ({
      id,
      name: nameOf(it, id === 'x', said() !== null),
      invertB,
      delayBSamples,
      trimBDb: 0,
    });
    const x = version('x', it.x);
    // the other polarity is heard once there is an answer
    return it.kind === 'polarity' && said() === null ? [x] : [x, version('y', it.y)];
  });
  return {
    round,
    questions,
    at,
    question,
    answers,
    said,
    rightSoFar: () => answers().filter((one, i) => one === questions()[i]?.truth).length,
    versions,
    scene: () => scenes().find(({ id }) => id === question()?.pair.id) ?? null,
    answer(answer) {
      if (question() !== null && said() === null) setAnswers((all) => [...all, answer]);
    },
    next() {
      if (said() !== null) setAt((now) => now + 1);
    },
    begin(wanted) {
      if (!Number.isInteger(wanted) || wanted < 1 || wanted > LARGEST_ROUND) return false;
      batch(() => {
        setRound(wanted);
        setAt(0);
        setAnswers([]);
      });
      return true;
    },
  };
}

function nameOf({ kind, truth }: Question, isX: boolean, told: boolean): string {
  if (kind === 'polarity') return !told ? 'The pair' : (truth === 'inverted') === isX ? 'B inverted' : 'B not inverted';
  const letter = isX ? 'X' : 'Y';
  if (!told) return letter;
  return (truth === 'x') === isX ? `${letter}: lined up` : `${letter}: apart`;
}
