/** What happens by itself in a round: another source, another switch, another pair or kit, a reading that became sure. */
import { batch, createEffect, createMemo, on, untrack } from 'solid-js';
import { microphoneName } from '../../text/names';
import { isDrumOpen } from '../meter/drumOpen';
import { isHalted } from '../meter/meterTypes';
import { NOT_SURE, WHICH_DRUM, WHICH_DRUM_CHECKED } from './accepting';
import { fits, pairOf } from './demoPair';
import { followKind, followTemperature } from './followSheet';
import { HALTED } from './roundWords';
import type { RoundWorks } from './roundWorks';
import type { Steps } from './steps';
import { beginTake } from './taking';

const MEASURING_AGAIN = 'Measuring again.';
const OTHER_SCENE = 'This example is of another pair, so it isn’t measured.';
const OTHER_RECORDING = 'This recording was made before the mic was inverted: open the one made after.';
const PAIR_CHANGED = 'The pair was changed on the sheet, so it’s starting over.';

/** To be called where effects have an owner. */
export function followRound(works: RoundWorks, steps: Steps): void {
  followSource(works);
  followTake(works, steps);
  followSheet(works, steps);
  followSureness(works);
}

/** Another source, or another scene: it is what the pair in hand is read from. */
function followSource(works: RoundWorks): void {
  const { meter, shelf, pair, scene, setSaid } = works;
  createEffect(
    on(
      meter.source,
      (source) => {
        const sheet = shelf.sheet();
        const present = pair();
        if (source === null || sheet === null || present === null) return;
        setSaid('');
        works.setStale(false);
        if (source.type === 'demo' && scene() !== source.scene.id && !fits(present, source.scene)) {
          const other = pairOf(source.scene, sheet.pairs);
          if (!other) {
            // nothing of it is read: these aren't the pair's microphones
            works.hand.clear();
            batch(() => [works.setPatching(true), works.setStale(true), setSaid(OTHER_SCENE)]);
            return;
          }
          works.setPairId(other.id);
        }
        beginTake(works);
      },
      { defer: true },
    ),
  );
}

/** What the hits belonged to isn't so any more: they don't count, and it begins again with what is so now. */
function followTake(works: RoundWorks, steps: Steps): void {
  const { hand, turn, setSaid } = works;
  createEffect(
    on(hand.outdated, (why) => {
      const present = untrack(works.pair);
      if (why === '' && turn.waitsForRecording && untrack(works.patching)) {
        // as it was: the recording that is open is of it after all
        turn.waitsForRecording = false;
        batch(() => [works.setPatching(false), setSaid('')]);
      }
      if (why === '' || !present || untrack(works.patching)) return;
      if (why === 'pair') {
        steps.begin(present.id, untrack(works.mode));
        setSaid(PAIR_CHANGED);
      } else if (why === 'inputs') {
        // what was read before was of A and B the other way round
        hand.noteBefore(null);
        beginTake(works, null);
      } else afterSwitch(works);
    }),
  );
}

/** A switch of the pair stands otherwise on the sheet: what is heard from here on is to be told from what was heard before. */
function afterSwitch(works: RoundWorks): void {
  const { meter, mode, hand, turn, setSaid } = works;
  const latest = hand.latest();
  const from = hand.shown.first() ?? (latest && latest.hits > 0 ? latest : null);
  if (from && mode() === 'measure') hand.noteBefore(from);
  if (meter.source()?.type === 'recording') {
    turn.waitsForRecording = true;
    batch(() => [works.setPatching(true), works.setStale(true), setSaid(OTHER_RECORDING)]);
    return;
  }
  beginTake(works, mode() === 'measure' ? from : null);
  meter.forgetHits();
  setSaid(`${switchesText(works)} on the sheet. ${MEASURING_AGAIN}`);
}

/** "Snare bottom inverted", or of both. */
function switchesText({ pair, microphone }: RoundWorks): string {
  const present = pair();
  const told = [present?.a, present?.b].flatMap((id) => {
    const one = id === undefined ? null : microphone(id);
    return one?.inverted ? [microphoneName(one.label)] : [];
  });
  return told.length === 0 ? 'No mic inverted' : `${told.join(' and ')} inverted`;
}

function followSheet(works: RoundWorks, steps: Steps): void {
  const { shelf, pairId, pair } = works;
  // the pair went with its microphone, or another kit is open
  createEffect(() => {
    if (pairId() !== null && pair() === null) steps.stop();
  });
  followKind(works);
  followTemperature(works);
  const kitId = createMemo(() => shelf.sheet()?.id);
  const anotherKit = (): void => {
    batch(() => {
      works.turn.later.clear();
      works.hand.forget();
      works.setSaid('');
    });
  };
  createEffect(on(kitId, anotherKit, { defer: true }));
}

/** What kept it from being accepted is over. */
function followSureness({ meter, hand, said, setSaid }: RoundWorks): void {
  const halted = createMemo(() => isHalted(meter.run()));
  const isOfHalt = (text: string): boolean => Object.values(HALTED).includes(text);
  createEffect(on(halted, (is) => !is && isOfHalt(untrack(said)) && setSaid('')));
  const open = createMemo(() => isDrumOpen(meter));
  const isOfOpen = (text: string): boolean => text === WHICH_DRUM || text === WHICH_DRUM_CHECKED;
  createEffect(on(open, (is) => !is && isOfOpen(untrack(said)) && setSaid('')));
  createEffect(
    on(
      () => hand.shown.now()?.sure,
      (sure) => {
        if (sure && (untrack(said) === NOT_SURE || untrack(said).endsWith(MEASURING_AGAIN))) setSaid('');
      },
    ),
  );
}
