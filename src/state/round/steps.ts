/** From pair to pair of the round, and out of it. */
import { batch } from 'solid-js';
import { nextToCheck } from '../../sheet/kit/roundRules';
import { following } from './roundOrder';
import type { Round } from './roundTypes';
import type { RoundWorks } from './roundWorks';
import { beginTake, playScene } from './taking';

export type Steps = Pick<Round, 'begin' | 'goOn' | 'beginCheck' | 'patched' | 'putOff' | 'anew' | 'stop'>;

export function createSteps(works: RoundWorks): Steps {
  const { meter, shelf, pair, mode, setSaid, hand, turn } = works;
  const steps: Steps = {
    begin: (id, next = 'measure') => toPair(works, id, next),
    goOn() {
      const sheet = shelf.sheet();
      const scenes = works.isDemo() ? meter.scenes() : null;
      const { later } = turn;
      const system = works.system();
      const next = sheet && system && following({ sheet, system, mode: mode(), present: pair(), later, scenes });
      if (next) {
        steps.begin(next, mode());
        turn.steppedMs = works.clock().getTime();
        return;
      }
      steps.stop();
      meter.go('kit');
    },
    beginCheck() {
      const sheet = shelf.sheet();
      const next = sheet && nextToCheck(sheet, null);
      if (next) steps.begin(next, 'check');
      else setSaid('No pair is accepted yet, so there’s nothing to recheck.');
    },
    patched() {
      const source = meter.source();
      if (source?.type === 'demo') return playScene(works);
      // what was read of the pair before is still the recording that is open
      if (source?.type === 'recording') return meter.go('recording');
      // a take's pair is none that is in hand
      if (source?.type === 'take') return meter.go('start');
      if (works.refuses()) return;
      // as one: a reading of before must not be taken for one of this take
      batch(() => {
        beginTake(works);
        meter.startOver();
      });
    },
    putOff() {
      const present = pair();
      if (!present) return;
      turn.later.add(present.id);
      steps.goOn();
    },
    anew() {
      if (!pair() || works.patching()) return;
      hand.noteBefore(null);
      beginTake(works, null);
    },
    stop() {
      batch(() => {
        works.setPairId(null);
        works.setPatching(false);
        hand.clear();
        works.setMode('measure');
        meter.setSwitchedB(false);
        meter.setKnownSwitch(null);
        meter.expect(null);
      });
    },
  };
  return steps;
}

function toPair(works: RoundWorks, id: string, mode: 'measure' | 'check'): void {
  const { meter, shelf, hand, turn } = works;
  if (!shelf.sheet()?.pairs.some((one) => one.id === id)) return;
  const source = meter.source();
  turn.waitsForRecording = false;
  turn.steppedMs = Number.NEGATIVE_INFINITY;
  batch(() => {
    works.setPatching(true);
    works.setStale(true);
    works.setPairId(id);
    works.setMode(mode);
    hand.clear();
    works.setSaid('');
    // a source that is opened now isn't of the pair before
    meter.expect(null);
    meter.go(source === null ? 'start' : 'meter');
  });
  if (source?.type === 'demo') playScene(works);
}
