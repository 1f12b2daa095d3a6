/** Listening: which version is heard, how, and from what; all of it is one sound, looped, or what comes in live. */
import { type Accessor, batch, createEffect, createMemo, createSignal, on, onCleanup, untrack } from 'solid-js';
import { problemOf } from '../../audio/link';
import { liveMatch } from '../../listen/liveGain';
import { type Matched, Matching } from '../../listen/matching';
import type { ListeningPath } from '../../listen/path';
import { chooseLoop, type Loop, type Stretch } from '../../listen/stretch';
import { type Mix, mixOf, type PairSound, type Put, type Start, type Version } from '../../listen/version';
import type { SoundSource } from './soundSource';

export interface ListeningOptions {
  source: SoundSource;
  /** at least one; the first is what the others are matched with. Told as the inputs carry A and B */
  versions: Accessor<readonly Version[]>;
  /** how the first is put that the others are matched with; A+B unless told */
  matchTo?: Put | undefined;
  /** where B starts isn't anybody's choice meanwhile: levels are equal */
  blind?: Accessor<boolean>;
}

/** Why nothing is heard. */
export type SilentReason =
  | { code: 'no-sound' }
  | { code: 'no-hit' }
  /** live sound ran away and was muted */
  | { code: 'runaway' }
  | { code: 'failed'; text: string };

/** Live sound. `asked`: the warning is up. */
export type LiveState = 'off' | 'asked' | 'on';

export interface Listening {
  versions: Accessor<readonly Version[]>;
  /** id of the version that is heard */
  chosen: Accessor<string>;
  choose(id: string): void;
  put: Accessor<Put>;
  setPut(put: Put): void;
  stretch: Accessor<Stretch>;
  setStretch(stretch: Stretch): void;
  start: Accessor<Start>;
  setStart(start: Start): void;
  /** 0…1; 0 whenever sound begins or ends */
  level: Accessor<number>;
  setLevel(level: number): void;
  /** a loop goes round */
  playing: Accessor<boolean>;
  /** it is being fetched */
  starting: Accessor<boolean>;
  /** in a press: begins, or takes the newest hits where mics are open. Never rejects */
  play(): Promise<void>;
  stop(): void;
  /** hits in the loop; null: nothing was looped yet */
  hits: Accessor<number | null>;
  /** what the version that is heard was matched with; null: nothing was measured yet */
  matched: Accessor<Matched | null>;
  silent: Accessor<SilentReason | null>;
  /** mics are open, so that what comes in could be heard */
  canLive: Accessor<boolean>;
  live: Accessor<LiveState>;
  /** puts the warning up */
  askLive(): void;
  /** the warning was read: in a press. Never rejects */
  confirmLive(): Promise<void>;
  endLive(): void;
}

/** what says the same isn't told again */
const SAME = { equals: (x: unknown, y: unknown): boolean => JSON.stringify(x) === JSON.stringify(y) };

/** turned up evenly, as ears have it */
const factorOf = (level: number): number => level ** 2;

/** figures that are dragged settle for so long before they are measured, ms */
const SETTLE_MS = 40;

/** To be called where effects have an owner; all of it is silent and gone with that. */
export function createListening({ source, versions, matchTo, blind }: ListeningOptions): Listening {
  const [chosenId, setChosen] = createSignal('');
  const [put, setPut] = createSignal<Put>('both');
  const [stretch, setStretch] = createSignal<Stretch>('hit');
  const [start, setStart] = createSignal<Start>('equal');
  const [level, setLevel] = createSignal(0);
  const [playing, setPlaying] = createSignal(false);
  const [starting, setStarting] = createSignal(false);
  const [live, setLive] = createSignal<LiveState>('off');
  const [silent, setSilent] = createSignal<SilentReason | null>(null);
  const [looped, setLooped] = createSignal<{ sound: PairSound; loop: Loop; matching: Matching } | null>(null);
  const settled = createSettled(versions);

  let path: ListeningPath | null = null;
  let pathRate = 0;
  /** counts what was asked for: an answer to an older question comes too late */
  let asked = 0;

  const heard = createMemo(() => {
    const turned = source.turnedB();
    return settled().map((one) => ({ ...one, invertB: one.invertB !== turned }));
  });
  const at = (): number =>
    Math.max(
      0,
      heard().findIndex(({ id }) => id === chosenId()),
    );
  const chosen = (): string => heard()[at()]?.id ?? '';
  const table = createMemo(() => looped()?.matching.match(heard(), start(), matchTo) ?? null);
  const played = (): { playedDb: number; matched: Matched | null } => {
    const own = table()?.[at()]?.[put()] ?? null;
    if (live() !== 'on') return { playedDb: own?.gainDb ?? 0, matched: own };
    const raisedDb = (heard()[at()]?.trimBDb ?? 0) - (heard()[0]?.trimBDb ?? 0);
    return liveMatch(own, table()?.[0]?.both ?? null, raisedDb);
  };
  const matched = (): Matched | null => played().matched;

  const mix = createMemo<Mix | null>(
    () => {
      const version = heard()[at()];
      if (!version) return null;
      const now = looped();
      const gain = 10 ** (played().playedDb / 20);
      return mixOf(
        version,
        put(),
        now?.matching.levelB(start()) ?? 1,
        gain,
        now?.sound.offsetSamples ?? source.live()?.offsetSamples() ?? 0,
      );
    },
    null,
    SAME,
  );
  createEffect(() => {
    const wanted = mix();
    if (wanted) path?.choose(wanted);
  });
  createEffect(() => {
    const wanted = factorOf(level());
    path?.setLevel(wanted);
  });

  function closePath(): void {
    path?.close();
    path = null;
  }

  /** Everything is silent, and stays so until somebody asks again. */
  function fall(reason: SilentReason | null): void {
    asked += 1;
    closePath();
    batch(() => {
      setPlaying(false);
      setStarting(false);
      setLevel(0);
      setLive('off');
      setSilent(reason);
    });
  }

  const failed = (thrown: unknown): void => fall({ code: 'failed', text: problemOf(thrown).text });
  const events = {
    onRunaway: () => fall({ code: 'runaway' }),
    onStopped: (text: string) => fall({ code: 'failed', text }),
  };

  /** A path that was opened meanwhile for something else is let go. */
  function take(opened: ListeningPath): void {
    closePath();
    path = opened;
    const wanted = mix();
    if (wanted) opened.choose(wanted);
    opened.setLevel(factorOf(level()));
  }

  /** @param downDb they were turned down by before */
  function setLoop(sound: PairSound, downDb = 0): boolean {
    const loop = chooseLoop(sound, stretch());
    if (loop === null) {
      fall({ code: 'no-hit' });
      return false;
    }
    setLooped({ sound, loop, matching: new Matching(loop, sound.offsetSamples, downDb) });
    return true;
  }

  async function play(): Promise<void> {
    if (live() === 'on') endLive();
    source.hush();
    const mine = ++asked;
    batch(() => {
      // other hits may be louder
      setLevel(0);
      setSilent(null);
      setStarting(true);
    });
    try {
      const sound = await source.sound();
      if (mine !== asked) return;
      if (sound === null) return fall({ code: 'no-sound' });
      if (!untrack(() => setLoop(sound))) return;
      if (path === null || pathRate !== sound.sampleRate) {
        const opened = await source.openLoops(sound.sampleRate, events);
        if (mine !== asked) return opened.close();
        take(opened);
        pathRate = sound.sampleRate;
      }
      const { loop } = looped() as { loop: Loop };
      path?.setLoop(loop.a, loop.b);
      path?.play(true);
      batch(() => {
        setStarting(false);
        setPlaying(true);
      });
    } catch (thrown) {
      if (mine === asked) failed(thrown);
    }
  }

  function stop(): void {
    asked += 1;
    path?.play(false);
    batch(() => {
      setLevel(0);
      setPlaying(false);
      setStarting(false);
    });
  }

  async function confirmLive(): Promise<void> {
    const open = source.live()?.open;
    if (live() !== 'asked' || !open) return;
    source.hush();
    stop();
    closePath();
    const mine = ++asked;
    batch(() => {
      setLevel(0);
      setSilent(null);
      setLive('on');
    });
    try {
      // what the versions are matched by, if anything was struck yet
      const sound = await source.sound();
      if (mine !== asked) return;
      const loop = sound && chooseLoop(sound, 'bar');
      if (sound && loop) setLooped({ sound, loop, matching: new Matching(loop, sound.offsetSamples) });
      const opened = await open(events);
      if (mine !== asked) return opened.close();
      take(opened);
      pathRate = 0;
      opened.play(true);
    } catch (thrown) {
      if (mine === asked) failed(thrown);
    }
  }

  function endLive(): void {
    if (live() !== 'off') fall(null);
  }

  // another stretch of the same sound
  createEffect(
    on(
      stretch,
      () => {
        const now = looped();
        if (now === null || live() === 'on' || !setLoop(now.sound, now.matching.downDb)) return;
        const { loop } = looped() as { loop: Loop };
        if (playing()) path?.setLoop(loop.a, loop.b);
      },
      { defer: true },
    ),
  );
  createEffect(
    on(
      source.key,
      () => {
        fall(null);
        setLooped(null);
      },
      { defer: true },
    ),
  );
  createEffect(() => {
    if (blind?.()) setStart('equal');
  });
  // open mics: what B starts at may turn one of them up
  createEffect(on(start, () => void (untrack(live) === 'on' && setLevel(0)), { defer: true }));
  createEffect(() => {
    if (source.soundsElsewhere()) untrack(() => fall(null));
  });
  const isLive = createMemo(() => source.live() !== null);
  createEffect(() => {
    // another interface is another recorder
    source.key();
    if (!isLive()) {
      if (untrack(live) !== 'off') untrack(() => fall(null));
      return;
    }
    const own = untrack(source.live);
    own?.keep(true);
    onCleanup(() => own?.keep(false));
  });
  onCleanup(() => {
    asked += 1;
    closePath();
  });

  return {
    versions,
    chosen,
    choose: setChosen,
    put,
    setPut,
    stretch,
    setStretch,
    start,
    setStart,
    level,
    setLevel: (value) => void setLevel(Math.min(1, Math.max(0, value || 0))),
    playing,
    starting,
    play,
    stop,
    hits: () => looped()?.loop.hits ?? null,
    matched,
    silent,
    canLive: isLive,
    live,
    askLive: () => void (isLive() && live() === 'off' && setLive('asked')),
    confirmLive,
    endLive,
  };
}

/** The list as it is at once; figures in it that change follow when they have stood still for a moment. */
function createSettled(versions: Accessor<readonly Version[]>): Accessor<readonly Version[]> {
  const [settled, setSettled] = createSignal<readonly Version[]>(untrack(versions), SAME);
  const ids = (list: readonly Version[]): string => list.map(({ id }) => id).join('\n');
  let timer: ReturnType<typeof setTimeout> | undefined;
  createEffect(() => {
    const now = versions();
    if (ids(now) !== ids(untrack(settled))) {
      clearTimeout(timer);
      timer = undefined;
      setSettled(now);
    } else
      timer ??= setTimeout(() => {
        timer = undefined;
        setSettled(untrack(versions));
      }, SETTLE_MS);
  });
  onCleanup(() => clearTimeout(timer));
  return settled;
}
