/** The teaching bench as it stands now, the curve before, and the lesson in hand. Kept for as long as the page is open. */
import { type Accessor, batch, createMemo, createRoot, createSignal } from 'solid-js';
import { setHit, startBench, watch } from '../../teaching/bench/edits';
import { type BenchFigures, figuresOf } from '../../teaching/bench/figures';
import type { Bench, ControlId, DrumId, HitId } from '../../teaching/bench/model';
import { CONTROL_IDS } from '../../teaching/bench/model';
import type { LessonId } from '../../teaching/lessons/lesson';
import { LESSONS } from '../../teaching/lessons/lessons';
import { beginLesson, isOver, type LessonRun, leftBy, lookForDone, nextStep, skipStep } from '../../teaching/progress';

export interface Teaching {
  bench: Accessor<Bench>;
  /** as it was before what was done last; null: nothing was done yet */
  before: Accessor<Bench | null>;
  figures: Accessor<BenchFigures>;
  /** null: none, the bench is free */
  run: Accessor<LessonRun | null>;
  /** lessons that were gone through in this session, and whether a step of it was skipped */
  finished: Accessor<ReadonlyMap<LessonId, 'done' | 'skipped'>>;
  /** what can be set now */
  controls: Accessor<readonly ControlId[]>;
  /** One change. @param of whatever has the same name goes on from what was before its first change */
  change(of: string, edit: (bench: Bench) => Bench): void;
  /** the same while something is held: nothing is looked at until `settle` */
  drag(of: string, edit: (bench: Bench) => Bench): void;
  /** what was held is let go */
  settle(): void;
  /** the next change stands by itself, whatever its name */
  rest(): void;
  chooseDrum(drum: DrumId): void;
  chooseHit(hit: HitId): void;
  /** the slow hit was watched to its end */
  watched(): void;
  begin(lesson: LessonId): void;
  leaveLesson(): void;
  next(): void;
  skip(): void;
}

/** On the free bench; what only a kick or a kit has is shown with these. */
const FREE: Readonly<Record<DrumId, readonly ControlId[]>> = {
  snare: CONTROL_IDS.filter((id) => id !== 'hit' && id !== 'phantom-b' && id !== 'kind-b'),
  kick: CONTROL_IDS.filter((id) => id !== 'hit'),
  kit: CONTROL_IDS.filter((id) => id !== 'phantom-b' && id !== 'kind-b'),
};

export function createTeaching(): Teaching {
  const [bench, setBench] = createSignal<Bench>(startBench('snare'));
  const [before, setBefore] = createSignal<Bench | null>(null);
  const [run, setRun] = createSignal<LessonRun | null>(null);
  const [finished, setFinished] = createSignal<ReadonlyMap<LessonId, 'done' | 'skipped'>>(new Map());
  /** the name of what was done last */
  let last: string | null = null;

  function put(of: string, edit: (bench: Bench) => Bench): void {
    const [was, now] = [bench(), edit(bench())];
    if (now === was) return;
    if (of !== last) setBefore(was);
    last = of;
    setBench(now);
  }
  function look(): void {
    const now = run();
    if (now) setRun(lookForDone(now, bench()));
  }
  function change(of: string, edit: (bench: Bench) => Bench): void {
    batch(() => {
      put(of, edit);
      look();
    });
  }
  function lay(newBench: Bench, newRun: LessonRun | null): void {
    last = null;
    batch(() => {
      setBench(newBench);
      setBefore(null);
      setRun(newRun);
    });
  }
  function go(to: LessonRun): void {
    setRun(to);
    if (isOver(to)) {
      const fate = to.fates.includes('skipped') ? 'skipped' : 'done';
      setFinished((all) => new Map(all).set(to.lesson, fate));
    }
  }
  let presses = 0;
  /** each press stands by itself */
  const alone = (): string => `press-${++presses}`;

  return createRoot(() => ({
    bench,
    before,
    figures: createMemo(() => figuresOf(bench())),
    run,
    finished,
    controls: createMemo(() => {
      const now = run();
      return now ? LESSONS[now.lesson].controls : FREE[bench().drum];
    }),
    change: (of, edit) => change(of === '' ? alone() : of, edit),
    drag: (of, edit) => put(of, edit),
    settle: look,
    rest() {
      last = null;
    },
    chooseDrum: (drum) => lay(startBench(drum), null),
    chooseHit: (hit) => change(alone(), (now) => setHit(now, hit)),
    watched() {
      // seen, nothing moved: the curve before stays
      setBench(watch(bench()));
      look();
    },
    begin: (lesson) => lay(LESSONS[lesson].start, beginLesson(lesson)),
    leaveLesson: () => lay(startBench(bench().drum), null),
    next() {
      const now = run();
      if (now) go(nextStep(now, bench()));
    },
    skip() {
      const now = run();
      if (now?.fates[now.at] !== 'open') return;
      batch(() => {
        put(alone(), (was) => leftBy(now, was));
        go(skipStep(now, bench()));
      });
    },
  }));
}
