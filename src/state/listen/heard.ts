/** Which version is heard and how, and what it is matched with. */
import { type Accessor, createEffect, createMemo, createSignal, onCleanup, untrack } from 'solid-js';
import { liveMatch } from '../../listen/liveGain';
import type { Matched, Matching } from '../../listen/matching';
import type { Loop } from '../../listen/stretch';
import { type Mix, mixOf, type PairSound, type Put, type Start, type Version } from '../../listen/version';
import type { ListeningOptions, LiveState } from './listeningTypes';
import { createSettled, SAME } from './settled';

/** What goes round. */
export interface Looped {
  sound: PairSound;
  loop: Loop;
  matching: Matching;
}

/** softer than the rest by more, and no level is set by it, dB */
const SOFT_DB = 12;
/** back up by 3 dB a second, in steps that nobody hears: dB, ms */
const RISE_DB = 0.15;
const RISE_MS = 50;

export type Heard = ReturnType<typeof createHeard>;

/** To be called where effects have an owner. */
export function createHeard(
  { source, versions, matchTo }: ListeningOptions,
  looped: Accessor<Looped | null>,
  live: Accessor<LiveState>,
) {
  const [chosenId, choose] = createSignal('');
  const [put, setPut] = createSignal<Put>('both');
  const [start, setStart] = createSignal<Start>('equal');
  const [rises, setRises] = createSignal(0);
  const settled = createSettled(versions);

  const turned = createMemo((): readonly Version[] => {
    const turnedB = source.turnedB();
    return settled().map((one) => ({ ...one, invertB: one.invertB !== turnedB }));
  });
  const at = (): number =>
    Math.max(
      0,
      turned().findIndex(({ id }) => id === chosenId()),
    );
  const table = createMemo(() => {
    rises();
    return looped()?.matching.match(turned(), start(), matchTo) ?? null;
  });
  const rising = createMemo(() => {
    table();
    // open mics are turned up by nothing but a hand
    return live() !== 'on' && looped()?.matching.canRise === true;
  });
  let timer: ReturnType<typeof setTimeout> | undefined;
  createEffect(() => {
    rises();
    if (rising())
      timer ??= setTimeout(() => {
        timer = undefined;
        if (!untrack(rising)) return;
        untrack(looped)?.matching.rise(RISE_DB);
        setRises((n) => n + 1);
      }, RISE_MS);
  });
  onCleanup(() => clearTimeout(timer));

  const played = (): { playedDb: number; matched: Matched | null } => {
    const own = table()?.[at()]?.[put()] ?? null;
    if (live() !== 'on') return { playedDb: own?.gainDb ?? 0, matched: own };
    const raisedDb = (turned()[at()]?.trimBDb ?? 0) - (turned()[0]?.trimBDb ?? 0);
    return liveMatch(own, table()?.[0]?.both ?? null, raisedDb);
  };
  const mix = createMemo<Mix | null>(
    () => {
      const version = turned()[at()];
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
  const matched = (): Matched | null => played().matched;
  return {
    chosen: (): string => turned()[at()]?.id ?? '',
    choose,
    put,
    setPut,
    start,
    setStart,
    mix,
    matched,
    rising,
    tooSoft: (): boolean => (matched()?.shortDb ?? 0) > SOFT_DB,
  };
}
