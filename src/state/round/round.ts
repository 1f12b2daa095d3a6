/**
 * The round: takes the meter from pair to pair of the open kit, keeps the readings before and after, and says what changed
 * in a pair that was accepted. It works on the meter and on the shelf; neither knows of it.
 */
import { createSignal } from 'solid-js';
import { changeMicrophone, changePair } from '../../sheet/document/edits';
import { pairTitle } from '../../sheet/document/labels';
import { createAccepting } from './accepting';
import { followRound } from './followRound';
import type { Round, RoundOptions } from './roundTypes';
import { bringText, type Feed } from './roundWords';
import { createRoundWorks, type RoundWorks } from './roundWorks';
import { createSteps } from './steps';

/** letters */
export const INITIALS_LENGTH = 12;

/** To be called where effects have an owner. */
export function createRound(options: RoundOptions): Round {
  const { keeper } = options;
  const [initials, setInitials] = createSignal(keeper.get('initials') ?? '');
  const works = createRoundWorks(options, initials);
  const steps = createSteps(works);
  followRound(works, steps);
  const { system, pair, mode, patching, said, scene } = works;
  return {
    ...works.hand.shown,
    ...steps,
    ...createAccepting(works, steps),
    ...sheetActions(works),
    system,
    pair,
    title() {
      const [sheet, present] = [works.shelf.sheet(), pair()];
      return sheet && present ? pairTitle(sheet, present) : '';
    },
    mode,
    patching,
    covered: () => patching() && works.stale(),
    feed: () => feedOf(works),
    bring() {
      const [sheet, present] = [works.shelf.sheet(), pair()];
      return sheet && present ? bringText(sheet, present, feedOf(works), works.meter.swapped()) : '';
    },
    said,
    scene,
    initials,
    setInitials(text) {
      const cut = text.slice(0, INITIALS_LENGTH);
      setInitials(cut);
      keeper.set('initials', cut);
    },
  };
}

function feedOf({ meter, scene }: RoundWorks): Feed {
  switch (meter.source()?.type) {
    case 'demo':
      if (scene() === null) return 'no-example';
      return meter.opening() ? 'opening-example' : 'example';
    case 'recording':
    case 'take':
      return 'recording';
    default:
      return 'inputs';
  }
}

/** What of the pair in hand stands on the sheet: the rest follows from there. */
function sheetActions(works: RoundWorks): Pick<Round, 'inverted' | 'setKind' | 'refusesSwap'> {
  const { shelf, pair, patching, microphone } = works;
  return {
    inverted(which) {
      const present = pair();
      const one = present && microphone(present[which]);
      if (!one || patching() || works.refuses()) return;
      shelf.change((sheet) => changeMicrophone(sheet, one.id, { inverted: !one.inverted }));
    },
    setKind(next) {
      const present = pair();
      if (!present || patching()) return false;
      shelf.change((sheet) => changePair(sheet, present.id, { kind: next }));
      return true;
    },
    refusesSwap() {
      if (!pair() || !works.isDemo()) return false;
      works.setSaid('In a round the kit sheet sets A and B: no swapping.');
      return true;
    },
  };
}
