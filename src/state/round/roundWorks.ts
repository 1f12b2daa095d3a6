/** What the round's actions work on; the screen sees none of it but what `Round` names. */
import { type Accessor, createMemo, createSignal, type Setter } from 'solid-js';
import type { Microphone, Pair } from '../../sheet/document/model';
import type { KitSystem } from '../../sheet/kit/kitSystem';
import { haltOf, isHalted } from '../meter/meterTypes';
import { createPairReading, type PairReadingActions } from '../pair/pairReading';
import { sceneOf } from './demoPair';
import { systemOnce } from './roundOrder';
import type { PairReading, RoundMode, RoundOptions } from './roundTypes';
import { HALTED } from './roundWords';

export interface RoundWorks extends Omit<RoundOptions, 'now'> {
  clock(): Date;
  /** now, ISO 8601, UTC */
  iso(): string;
  setPairId: Setter<string | null>;
  pairId: Accessor<string | null>;
  /** the pair in hand */
  pair: Accessor<Pair | null>;
  mode: Accessor<RoundMode>;
  setMode: Setter<RoundMode>;
  patching: Accessor<boolean>;
  setPatching: Setter<boolean>;
  /** what is open is another pair's */
  stale: Accessor<boolean>;
  setStale: Setter<boolean>;
  said: Accessor<string>;
  setSaid(text: string): void;
  system: Accessor<KitSystem | null>;
  /** id of the demo kit's scene of the pair in hand */
  scene: Accessor<string | null>;
  microphone(id: string): Microphone | null;
  isDemo: Accessor<boolean>;
  /** nothing arrives: said, and nothing else is done. @returns whether it is so */
  refuses(): boolean;
  hand: PairReadingActions & { shown: PairReading };
  /** what no screen shows */
  turn: {
    /** ids of pairs that were put off */
    later: Set<string>;
    /** when the round went on to the pair by itself, ms */
    steppedMs: number;
    /** a switch stands otherwise than in the recording that is open */
    waitsForRecording: boolean;
  };
}

/** To be called where effects have an owner. */
export function createRoundWorks({ now: clock, ...options }: RoundOptions, initials: Accessor<string>): RoundWorks {
  const { meter, shelf, settings } = options;
  const [pairId, setPairId] = createSignal<string | null>(null);
  const [mode, setMode] = createSignal<RoundMode>('measure');
  const [patching, setPatching] = createSignal(false);
  const [stale, setStale] = createSignal(false);
  const [said, setSaid] = createSignal('');
  const pair = createMemo(() => shelf.sheet()?.pairs.find(({ id }) => id === pairId()) ?? null);
  const scene = createMemo(() => {
    const present = pair();
    return present && (sceneOf(present, shelf.sheet()?.pairs ?? [], meter.scenes())?.id ?? null);
  });
  return {
    ...options,
    clock,
    iso: () => clock().toISOString(),
    pairId,
    setPairId,
    pair,
    mode,
    setMode,
    patching,
    setPatching,
    stale,
    setStale,
    said,
    setSaid,
    system: systemOnce(shelf.sheet),
    scene,
    microphone: (id) => shelf.sheet()?.microphones.find((one) => one.id === id) ?? null,
    isDemo: () => meter.source()?.type === 'demo',
    refuses() {
      if (!isHalted(meter.run())) return false;
      setSaid(HALTED[haltOf(meter)]);
      return true;
    },
    hand: createPairReading({ meter, shelf, settings, pair, mode, patching, initials, clock }),
    turn: { later: new Set(), steppedMs: Number.NEGATIVE_INFINITY, waitsForRecording: false },
  };
}
