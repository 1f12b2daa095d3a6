/**
 * The round: takes the meter from pair to pair of the open kit, keeps the readings before and after, and says what changed
 * in a pair that was accepted. It works on the meter and on the shelf; neither knows of it.
 */
import { type Accessor, batch, createEffect, createMemo, createSignal, on, untrack } from 'solid-js';
import { changeMicrophone, recordPair } from '../sheet/edits';
import type { KitSheet, Pair, Taken } from '../sheet/model';
import { accepted, nextToCheck, outcomeOf, proposed } from '../sheet/round';
import { type KitSystem, kitSystem } from '../sheet/system';
import { pairOf, sceneOf } from './demoPair';
import type { KitShelf } from './kitShelf';
import type { Meter } from './meter';
import { createPairReading, type PairReading, type RoundMode, sameSwitches } from './pairReading';
import type { Settings } from './settings';
import type { Keeper } from './storage';

export interface Round extends PairReading {
  system: Accessor<KitSystem | null>;
  /** the pair in hand; null: the meter reads for itself */
  pair: Accessor<Pair | null>;
  mode: Accessor<RoundMode>;
  /** the person is still patching it: nothing read now is of this pair */
  patching: Accessor<boolean>;
  /** what the last press did, or why it did nothing; empty after the next one */
  said: Accessor<string>;
  initials: Accessor<string>;
  setInitials(text: string): void;
  /** the scene of the demo kit that is of this pair; null: none */
  scene: Accessor<string | null>;
  begin(id: string, mode?: RoundMode): void;
  /** the pair that comes next, or back to the sheet */
  goOn(): void;
  /** a second look at all that was accepted */
  beginCheck(): void;
  /** the microphones are on the inputs: from here on hits count */
  patched(): void;
  /** Enter: patched, or accept what is sure, or what the second look found */
  enter(): void;
  acceptUnsure(): void;
  /** in a second look: the present reading stands from now on */
  takeNew(): void;
  leaveOnPurpose(note: string): void;
  /** B was inverted at its switch (which 1: A) */
  inverted(which: 'a' | 'b'): void;
  putOff(): void;
  /** out of the round; the meter goes on */
  stop(): void;
}

export interface RoundOptions {
  meter: Meter;
  shelf: KitShelf;
  settings: Settings;
  keeper: Keeper;
  now(): Date;
}

const INITIALS_LENGTH = 12;
const NOT_SURE = 'Not accepted: the meter isn’t sure. Keep hitting, or accept it as unsure.';

export function createRound({ meter, shelf, settings, keeper, now: clock }: RoundOptions): Round {
  const [pairId, setPairId] = createSignal<string | null>(null);
  const [mode, setMode] = createSignal<RoundMode>('measure');
  const [patching, setPatching] = createSignal(false);
  const [said, setSaid] = createSignal('');
  const [initials, setInitials] = createSignal(keeper.get('initials') ?? '');
  const later = new Set<string>();

  const iso = (): string => clock().toISOString();
  const system = createMemo(() => systemOf(shelf.sheet()));
  const pair = createMemo(() => shelf.sheet()?.pairs.find(({ id }) => id === pairId()) ?? null);
  const microphone = (id: string) => shelf.sheet()?.microphones.find((one) => one.id === id) ?? null;
  /** one of the two switches, not both: what a demo scene's own wiring doesn't have */
  const switched = createMemo(() => {
    const present = pair();
    return (
      present !== null && (microphone(present.a)?.inverted ?? false) !== (microphone(present.b)?.inverted ?? false)
    );
  });
  const isDemo = (): boolean => meter.source()?.type === 'demo';
  const scene = createMemo(() => {
    const present = pair();
    return present && (sceneOf(present, shelf.sheet()?.pairs ?? [], meter.scenes())?.id ?? null);
  });

  const hand = createPairReading({ meter, shelf, settings, pair, mode, patching, initials, clock });
  const { now, first, compared, changes } = hand;

  /** The meter is told what it reads now. */
  function dressMeter(present: Pair): void {
    settings.setLabel(0, microphone(present.a)?.label ?? '', false);
    settings.setLabel(1, microphone(present.b)?.label ?? '', false);
    if (settings.kind() !== present.kind) meter.setKind(present.kind, false);
    meter.setSwitchedB(isDemo() && switched());
  }

  function beginTake(): void {
    const present = pair();
    if (!present) return;
    batch(() => {
      setPatching(false);
      hand.beginTake();
      dressMeter(present);
    });
  }

  // another source, or another scene: it is what the pair in hand is read from
  createEffect(
    on(
      meter.source,
      (source) => {
        const sheet = shelf.sheet();
        const present = pair();
        if (source === null || sheet === null || present === null) return;
        if (source.type === 'demo' && scene() !== source.scene.id) {
          const other = pairOf(source.scene, sheet.pairs);
          if (other && other !== present) setPairId(other.id);
        }
        beginTake();
      },
      { defer: true },
    ),
  );
  // undone or done elsewhere: the demo's stand-in follows the sheet's switches
  createEffect(
    on(
      switched,
      (turned) => {
        if (pair() && isDemo() && !patching()) meter.setSwitchedB(turned);
      },
      { defer: true },
    ),
  );
  // the pair went with its microphone, or another kit is open
  createEffect(() => {
    if (pairId() !== null && pair() === null) round.stop();
  });

  createEffect(
    on(
      createMemo(() => shelf.sheet()?.id),
      () => batch(() => [later.clear(), hand.forget(), setSaid('')]),
      { defer: true },
    ),
  );

  // what kept it from being accepted is over
  createEffect(
    on(
      () => now()?.sure,
      (sure) => {
        if (sure && untrack(said) === NOT_SURE) setSaid('');
      },
    ),
  );

  function put(read: Taken, left: string | null): void {
    const present = pair();
    if (!present) return;
    const advice = meter.advice();
    // advice tells what to delay A by; the sheet tells it of B
    const later = read.sure && left === null && advice?.delayLaterMs ? 0 - advice.delayLaterMs : null;
    // what a knock did wasn't done by anybody: a second look that stands is a reading like a first one
    const outcome = outcomeOf(mode() === 'check' ? null : first(), read, { delayLaterMs: later, left });
    const turnB = outcome.done?.inverted === 'b' && outcome.after !== null && sameSwitches(outcome.before, read);
    hand.standsNow();
    shelf.change((sheet) => {
      // the polarity turned over though no switch was told of: B's is the one that was advised
      const turned = turnB ? changeMicrophone(sheet, present.b, { inverted: !read.bInverted }) : sheet;
      const kept =
        turnB && outcome.after ? { ...outcome, after: { ...outcome.after, bInverted: !read.bInverted } } : outcome;
      const next = { ...turned, temperatureC: read.temperatureC, sampleRate: sheet.sampleRate };
      return recordPair(next, present.id, accepted(present, kept, iso()));
    });
    const label = `${microphone(present.a)?.label} & ${microphone(present.b)?.label}`;
    round.goOn();
    setSaid(`${label}: accepted${left === null ? '' : ' as left on purpose'}${read.sure ? '' : ', not sure'}.`);
  }

  const round: Round = {
    system,
    pair,
    mode,
    patching,
    now,
    first,
    compared,
    changes,
    said,
    initials,
    setInitials(text) {
      const cut = text.slice(0, INITIALS_LENGTH);
      setInitials(cut);
      keeper.set('initials', cut);
    },
    scene,
    begin(id, next = 'measure') {
      const sheet = shelf.sheet();
      if (!sheet?.pairs.some((one) => one.id === id)) return;
      const source = meter.source();
      batch(() => {
        setPairId(id);
        setMode(next);
        hand.clear();
        setSaid('');
        setPatching(true);
        if (source === null) meter.go('start');
        else meter.go('meter');
      });
      const found = meter.scenes().find((one) => one.id === scene());
      if (source?.type !== 'demo' || !found) return;
      if (source.scene.id === found.id) {
        beginTake();
        meter.startOver();
      } else void meter.open({ type: 'demo', scene: found });
    },
    goOn() {
      const sheet = shelf.sheet();
      const found = system();
      const present = pair();
      if (!sheet || !found) return;
      if (mode() === 'check') {
        const next = nextToCheck(sheet, present?.id ?? null);
        const last = sheet.pairs.findIndex(({ id }) => id === present?.id);
        // round once, not for ever
        if (next !== null && sheet.pairs.findIndex(({ id }) => id === next) > last) return round.begin(next, 'check');
      } else {
        // the demo kit can't let every pair be heard
        const unheard = isDemo() ? sheet.pairs.filter((one) => sceneOf(one, sheet.pairs, meter.scenes()) === null) : [];
        const next = proposed(
          sheet,
          found,
          present?.drum ?? null,
          new Set([...later, ...unheard.map(({ id }) => id), ...(present ? [present.id] : [])]),
        );
        if (next && next.pair !== present?.id && !unheard.some(({ id }) => id === next.pair))
          return round.begin(next.pair);
      }
      round.stop();
      meter.go('kit');
    },
    beginCheck() {
      const sheet = shelf.sheet();
      const next = sheet && nextToCheck(sheet, null);
      if (next) round.begin(next, 'check');
      else setSaid('No pair is accepted yet: nothing to look at a second time.');
    },
    patched() {
      if (isDemo() && scene() !== null) return;
      if (isDemo())
        return void setSaid('The demo kit has no scene of this pair: choose one above, or put the pair off.');
      beginTake();
      meter.startOver();
    },
    enter() {
      const present = pair();
      if (!present || meter.opening()) return;
      if (patching()) return round.patched();
      const read = now();
      if (mode() === 'check') {
        const found = compared();
        if (!found || !read?.sure) return void setSaid('Nothing to compare yet: keep hitting, or put the pair off.');
        hand.noteChecked(present.id, found);
        const sentence = hand.checkedSentence(present, found);
        round.goOn();
        return void setSaid(sentence);
      }
      if (!read?.sure) return void setSaid(NOT_SURE);
      put(read, null);
    },
    acceptUnsure() {
      const read = now();
      if (!read) return void setSaid('Nothing has been read yet.');
      if (read.sure) return round.enter();
      put(read, null);
    },
    takeNew() {
      const read = now();
      if (!read?.sure) return void setSaid(NOT_SURE);
      put(read, null);
    },
    leaveOnPurpose(note) {
      const read = now();
      if (!read) return void setSaid('Nothing has been read yet.');
      put(read, note);
    },
    inverted(which) {
      const present = pair();
      if (!present || patching()) return;
      const id = which === 'a' ? present.a : present.b;
      const one = microphone(id);
      const old = first();
      const read = now();
      batch(() => {
        hand.beginAfter(old ?? (read && read.hits > 0 ? read : null));
        shelf.change((sheet) => changeMicrophone(sheet, id, { inverted: !one?.inverted }));
      });
      meter.startOver();
      setSaid(`${one?.label}: noted as ${one?.inverted ? 'not inverted' : 'inverted'} at its switch. Measuring again.`);
    },
    putOff() {
      const present = pair();
      if (!present) return;
      later.add(present.id);
      round.goOn();
    },
    stop() {
      batch(() => {
        setPairId(null);
        setPatching(false);
        hand.clear();
        setMode('measure');
        meter.setSwitchedB(false);
      });
    },
  };
  return round;
}

/** A sheet with more microphones on one drum than can be compared says nothing as a whole. */
function systemOf(sheet: KitSheet | null): KitSystem | null {
  if (sheet === null) return null;
  try {
    return kitSystem(sheet);
  } catch {
    return null;
  }
}
