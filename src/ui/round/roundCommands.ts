/** The round's keys: each does what its press on the strip does, and nothing where no pair is in hand. */
import type { Accessor } from 'solid-js';
import type { Meter, Page } from '../../state/meter/meterTypes';
import type { Round } from '../../state/round/roundTypes';
import type { KitPart } from '../kit/kitPart';

export interface RoundCommandParts {
  meter: Pick<Meter, 'page'>;
  round: Round;
  /** a note is being written: its letters are no keys */
  leaving: Accessor<boolean>;
  setLeaving(on: boolean): void;
}

export function roundCommands({ meter, round, leaving, setLeaving }: RoundCommandParts): KitPart['act'] {
  const on =
    (pages: readonly Page[], act: () => void): (() => void) =>
    () => {
      if (pages.includes(meter.page()) && round.pair() !== null && !leaving() && round.asking() === null) act();
    };
  const onMeter = (act: () => void): (() => void) => on(['meter'], act);
  const inverted = (which: 'a' | 'b') => (): void => {
    if (round.mode() === 'measure') round.inverted(which);
  };
  return {
    accept: onMeter(() => round.enter()),
    'accept-unsure': onMeter(() => round.acceptUnsure()),
    'a-inverted': onMeter(inverted('a')),
    'b-inverted': onMeter(inverted('b')),
    'leave-so': onMeter(() => {
      if (round.mode() === 'measure' && !round.patching()) setLeaving(true);
    }),
    'put-off': on(['meter', 'start'], () => round.putOff()),
  };
}
