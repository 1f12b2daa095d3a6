/**
 * The round: takes the meter from pair to pair of the open kit, keeps the readings before and after, and says what changed
 * in a pair that was accepted. It works on the meter and on the shelf; neither knows of it.
 */
import { batch, createEffect, createMemo, createSignal, on, untrack } from 'solid-js';
import { advise } from '../../advice/advise';
import { changeMicrophone, changePair, recordPair } from '../../sheet/document/edits';
import { pairTitle } from '../../sheet/document/labels';
import { lastTaken, type Pair, type Taken } from '../../sheet/document/model';
import { nextToCheck } from '../../sheet/kit/roundRules';
import { accepted, type Outcome, outcomeOf, standing } from '../../sheet/pair/outcome';
import { recheck } from '../../sheet/pair/recheck';
import { microphoneName, pairName } from '../../text/names';
import { keepTogether } from '../shelf/keepTogether';
import { fits, pairOf, sceneOf } from './demoPair';
import { createPairReading, type RoundMode, sameSwitches } from './pairReading';
import { following, systemOnce } from './roundOrder';
import type { Round, RoundOptions } from './roundTypes';

const INITIALS_LENGTH = 12;
/** a second Enter within this time after a step to another pair was meant for the one before, ms */
const STEP_MS = 700;
const NOT_SURE = 'Not accepted: the meter isn’t sure. Keep hitting, or accept it as unsure.';
const MEASURING_AGAIN = 'Measuring again.';
const NOTHING_READ = 'Nothing has been read of this pair yet.';
const NO_SCENE = 'The demo kit has no scene of this pair: choose one above, or put the pair off.';
const OTHER_SCENE = 'This scene isn’t of this pair, so nothing of it is read.';
const OTHER_RECORDING = 'A recording doesn’t change: open the one that was made after it.';

export function createRound({ meter, shelf, settings, keeper, now: clock }: RoundOptions): Round {
  const [pairId, setPairId] = createSignal<string | null>(null);
  const [mode, setMode] = createSignal<RoundMode>('measure');
  const [patching, setPatching] = createSignal(false);
  const [said, setSaid] = createSignal('');
  const [initials, setInitials] = createSignal(keeper.get('initials') ?? '');
  const later = new Set<string>();
  let steppedMs = Number.NEGATIVE_INFINITY;
  /** a switch stands otherwise than in the recording that is open */
  let waitsForRecording = false;

  const iso = (): string => clock().toISOString();
  const system = systemOnce(shelf.sheet);
  const pair = createMemo(() => shelf.sheet()?.pairs.find(({ id }) => id === pairId()) ?? null);
  const microphone = (id: string) => shelf.sheet()?.microphones.find((one) => one.id === id) ?? null;
  const isDemo = (): boolean => meter.source()?.type === 'demo';
  const scene = createMemo(() => {
    const present = pair();
    return present && (sceneOf(present, shelf.sheet()?.pairs ?? [], meter.scenes())?.id ?? null);
  });
  const hand = createPairReading({ meter, shelf, settings, pair, mode, patching, initials, clock });
  const { now, first, compared } = hand;

  /** The meter is told what it reads now. */
  function dressMeter(present: Pair): void {
    const [inputA, inputB] = meter.swapped() && !isDemo() ? ([1, 0] as const) : ([0, 1] as const);
    settings.setLabel(inputA, microphone(present.a)?.label ?? '', false);
    settings.setLabel(inputB, microphone(present.b)?.label ?? '', false);
    if (settings.kind() !== present.kind) meter.setKind(present.kind, false);
    // one of the two switches, not both: nobody can press one of the demo kit's
    const turned = (microphone(present.a)?.inverted ?? false) !== (microphone(present.b)?.inverted ?? false);
    meter.setKnownSwitch(turned);
    meter.setSwitchedB(isDemo() && turned);
  }

  /** @param from compared with; a reading that was left in the middle is where a take goes on, an accepted pair is read anew */
  function beginTake(from?: Taken | null): void {
    const present = pair();
    if (!present) return;
    waitsForRecording = false;
    batch(() => {
      setPatching(false);
      dressMeter(present);
      hand.beginTake(from === undefined ? (present.acceptedAt === null ? present.before : null) : from);
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
        setSaid('');
        if (source.type === 'demo' && scene() !== source.scene.id && !fits(present, source.scene)) {
          const other = pairOf(source.scene, sheet.pairs);
          if (!other) {
            // nothing of it is read: these aren't the pair's microphones
            hand.clear();
            batch(() => [setPatching(true), setSaid(OTHER_SCENE)]);
            return;
          }
          setPairId(other.id);
        }
        beginTake();
      },
      { defer: true },
    ),
  );

  // what the hits belonged to isn't so any more: they don't count, and it begins again with what is so now
  createEffect(
    on(hand.outdated, (why) => {
      const present = untrack(pair);
      if (why === '' && waitsForRecording && untrack(patching)) {
        // as it was: the recording that is open is of it after all
        waitsForRecording = false;
        batch(() => [setPatching(false), setSaid('')]);
      }
      if (why === '' || !present || untrack(patching)) return;
      if (why === 'pair') {
        round.begin(present.id, untrack(mode));
        setSaid('The pair was changed on the sheet: begin again with it.');
      } else if (why === 'inputs') {
        // what was read before was of A and B the other way round
        hand.noteBefore(null);
        beginTake(null);
      } else afterSwitch();
    }),
  );

  /** A switch of the pair stands otherwise on the sheet: what is heard from here on is to be told from what was heard before. */
  function afterSwitch(): void {
    const latest = hand.latest();
    const from = first() ?? (latest && latest.hits > 0 ? latest : null);
    if (from && mode() === 'measure') hand.noteBefore(from);
    if (meter.source()?.type === 'recording') {
      waitsForRecording = true;
      batch(() => [setPatching(true), setSaid(OTHER_RECORDING)]);
      return;
    }
    beginTake(mode() === 'measure' ? from : null);
    meter.startOver();
    setSaid(`${switchesText()} on the sheet. ${MEASURING_AGAIN}`);
  }

  /** "Snare bottom: inverted at its switch", or of both. */
  function switchesText(): string {
    const present = pair();
    const told = [present?.a, present?.b].flatMap((id) => {
      const one = id === undefined ? null : microphone(id);
      return one?.inverted ? [microphoneName(one.label)] : [];
    });
    return told.length === 0 ? 'No switch inverted' : `${told.join(' and ')} inverted`;
  }

  // the pair went with its microphone, or another kit is open
  createEffect(() => {
    if (pairId() !== null && pair() === null) round.stop();
  });
  keepTogether({ meter, shelf, settings, pair, patching });
  const kitId = createMemo(() => shelf.sheet()?.id);
  createEffect(on(kitId, () => batch(() => [later.clear(), hand.forget(), setSaid('')]), { defer: true }));
  // what kept it from being accepted is over
  createEffect(
    on(
      () => now()?.sure,
      (sure) => {
        if (sure && (untrack(said) === NOT_SURE || untrack(said).endsWith(MEASURING_AGAIN))) setSaid('');
      },
    ),
  );

  /** To be delayed in the mix, ms, positive B: as the very reading says that is put away. */
  function delayLaterMs(): number | null {
    const reading = meter.reading();
    const a = reading && advise(reading, meter.context()).delayLaterMs;
    if (!a) return null;
    return isDemo() && meter.swapped() ? a : 0 - a;
  }

  function outcome(present: Pair, read: Taken, left: string | null): Outcome {
    const then = lastTaken(present);
    const anew = present.acceptedAt !== null;
    // read again, and as it was: what was done and noted stays
    const asItWas =
      anew && left === null && then !== null && sameSwitches(then, read) && recheck(then, read).change === 'same';
    if (mode() === 'check' || asItWas) return standing(present, read);
    const from = anew && present.after !== null ? present.before : first();
    return outcomeOf(from, read, { delayLaterMs: read.sure && left === null ? delayLaterMs() : null, left });
  }

  function put(read: Taken, left: string | null): void {
    const present = pair();
    if (!present) return;
    const next = outcome(present, read, left);
    hand.standsNow();
    const label = pairName(microphone(present.a)?.label, microphone(present.b)?.label);
    // out of hand first: what is put away is no change of what is being read
    setPatching(true);
    shelf.change((sheet) => recordPair(sheet, present.id, accepted(present, next, iso())));
    round.goOn();
    setSaid(`${label}: accepted${left === null ? '' : ' as left on purpose'}${read.sure ? '' : ', not sure'}.`);
  }

  const round: Round = {
    ...hand,
    system,
    pair,
    title() {
      const [sheet, present] = [shelf.sheet(), pair()];
      return sheet && present ? pairTitle(sheet, present) : '';
    },
    mode,
    patching,
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
      waitsForRecording = false;
      steppedMs = Number.NEGATIVE_INFINITY;
      batch(() => {
        setPatching(true);
        setPairId(id);
        setMode(next);
        hand.clear();
        setSaid('');
        meter.go(source === null ? 'start' : 'meter');
      });
      if (source?.type === 'demo') playScene();
    },
    goOn() {
      const sheet = shelf.sheet();
      const scenes = isDemo() ? meter.scenes() : null;
      const next = sheet && following({ sheet, system: system(), mode: mode(), present: pair(), later, scenes });
      if (next) {
        round.begin(next, mode());
        steppedMs = clock().getTime();
        return;
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
      const source = meter.source();
      if (source?.type === 'demo') return playScene();
      // what was read of the pair before is still the recording that is open
      if (source?.type === 'recording') return meter.go('recording');
      // as one: a reading of before must not be taken for one of this take
      batch(() => {
        beginTake();
        meter.startOver();
      });
    },
    enter() {
      const present = pair();
      if (!present || meter.opening() || clock().getTime() - steppedMs < STEP_MS) return;
      if (patching()) return round.patched();
      const read = now();
      if (mode() === 'measure') {
        if (!read?.sure) return void setSaid(NOT_SURE);
        return put(read, null);
      }
      const found = compared();
      if (!found || !read?.sure) return void setSaid('Nothing to compare yet: keep hitting, or skip the pair.');
      hand.noteChecked(found);
      const sentence = hand.checkedSentence(present, found);
      round.goOn();
      setSaid(sentence);
    },
    acceptUnsure() {
      const read = now();
      if (mode() === 'check' || patching()) return;
      if (!read || read.hits === 0) return void setSaid(NOTHING_READ);
      put(read, null);
    },
    takeNew() {
      const read = now();
      if (!read?.sure) return void setSaid(NOT_SURE);
      put(read, null);
    },
    leaveOnPurpose(note) {
      const read = now();
      if (!read || read.hits === 0) return void setSaid(NOTHING_READ);
      put(read, note);
    },
    inverted(which) {
      const present = pair();
      const one = present && microphone(present[which]);
      if (!one || patching()) return;
      // the rest follows from the sheet, as when the switch is pressed there
      shelf.change((sheet) => changeMicrophone(sheet, one.id, { inverted: !one.inverted }));
    },
    putOff() {
      const present = pair();
      if (!present) return;
      later.add(present.id);
      round.goOn();
    },
    setKind(next) {
      const present = pair();
      if (!present || patching()) return false;
      shelf.change((sheet) => changePair(sheet, present.id, { kind: next }));
      return true;
    },
    refusesSwap() {
      if (!pair() || !isDemo()) return false;
      setSaid('In a round the demo kit’s A and B are the pair’s: nothing is swapped.');
      return true;
    },
    anew() {
      if (!pair() || patching()) return;
      hand.noteBefore(null);
      beginTake(null);
    },
    stop() {
      batch(() => {
        setPairId(null);
        setPatching(false);
        hand.clear();
        setMode('measure');
        meter.setSwitchedB(false);
        meter.setKnownSwitch(null);
      });
    },
  };

  /** The pair's scene, opened or begun again. */
  function playScene(): void {
    const source = meter.source();
    const found = meter.scenes().find((one) => one.id === scene());
    if (!found) return void setSaid(NO_SCENE);
    if (source?.type === 'demo' && source.scene.id === found.id) {
      beginTake();
      // in a round the scene's A is the pair's A
      if (meter.swapped()) meter.swap();
      else meter.startOver();
    } else void meter.open({ type: 'demo', scene: found });
  }

  return round;
}
