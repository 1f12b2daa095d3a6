/** The meter on the pair in hand: it is told what it reads, and its hits count from then on. */
import { batch } from 'solid-js';
import { countedTaken, type Pair, type Taken } from '../../sheet/document/model';
import { knownOf } from '../../sheet/pair/known';
import { NO_EXAMPLE } from './roundWords';
import type { RoundWorks } from './roundWorks';

/** The meter is told what it reads now. */
function dressMeter({ meter, settings, microphone, isDemo, mode }: RoundWorks, present: Pair): void {
  const [inputA, inputB] = meter.swapped() && !isDemo() ? ([1, 0] as const) : ([0, 1] as const);
  settings.setLabel(inputA, microphone(present.a)?.label ?? '', false);
  settings.setLabel(inputB, microphone(present.b)?.label ?? '', false);
  settings.setDrum(present.drum, false);
  if (settings.kind() !== present.kind) meter.setKind(present.kind, false);
  // one of the two switches, not both: nobody can press one of the demo kit's
  const [aInverted, bInverted] = [present.a, present.b].map((id) => microphone(id)?.inverted ?? false) as [
    boolean,
    boolean,
  ];
  const turned = aInverted !== bInverted;
  meter.setKnownSwitch(turned);
  meter.setSwitchedB(isDemo() && turned);
  // the demo kit's switch is none of its inputs'
  const looksAgain = mode() === 'check' && !isDemo();
  meter.expect(looksAgain ? knownOf(countedTaken(present), aInverted, bInverted) : null);
}

/** @param from compared with; a reading that was left in the middle is where a take goes on, an accepted pair is read anew */
export function beginTake(works: RoundWorks, from?: Taken | null): void {
  const present = works.pair();
  if (!present) return;
  works.turn.waitsForRecording = false;
  batch(() => {
    works.setPatching(false);
    dressMeter(works, present);
    works.hand.beginRun(from === undefined ? (present.acceptedAt === null ? present.before : null) : from);
  });
}

/** The pair's scene of the demo kit, opened or begun again. */
export function playScene(works: RoundWorks): void {
  const { meter, scene, setSaid } = works;
  const source = meter.source();
  const found = meter.scenes().find((one) => one.id === scene());
  if (!found) return void setSaid(NO_EXAMPLE);
  if (source?.type === 'demo' && source.scene.id === found.id) {
    beginTake(works);
    // in a round the scene's A is the pair's A
    if (meter.swapped()) meter.swap();
    else meter.startOver();
  } else void meter.open({ type: 'demo', scene: found });
}
