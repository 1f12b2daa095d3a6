import { expect, test } from 'vitest';
import type { Page } from '../../../src/state/meter/meterTypes';
import type { Round, RoundMode } from '../../../src/state/round/roundTypes';
import type { RoundCommand } from '../../../src/ui/kit/kitPart';
import { roundCommands } from '../../../src/ui/round/roundCommands';

interface State {
  page: Page;
  pair: boolean;
  mode: RoundMode;
  patching: boolean;
  leaving: boolean;
  asking: string | null;
}

const COMMANDS: readonly RoundCommand[] = [
  'accept',
  'accept-unsure',
  'a-inverted',
  'b-inverted',
  'leave-so',
  'put-off',
];

/** What each key did in this state. */
function pressed(state: Partial<State> = {}): string[] {
  const now: State = {
    page: 'meter',
    pair: true,
    mode: 'measure',
    patching: false,
    leaving: false,
    asking: null,
    ...state,
  };
  const done: string[] = [];
  const round = {
    pair: () => (now.pair ? {} : null),
    mode: () => now.mode,
    patching: () => now.patching,
    asking: () => now.asking,
    enter: () => done.push('enter'),
    acceptUnsure: () => done.push('unsure'),
    inverted: (which: string) => done.push(which),
    putOff: () => done.push('put off'),
  } as unknown as Round;
  const setLeaving = (): void => void done.push('note');
  const act = roundCommands({ meter: { page: () => now.page }, round, leaving: () => now.leaving, setLeaving });
  for (const command of COMMANDS) act[command]();
  return done;
}

test('on the meter each key does what its press does', () => {
  expect(pressed()).toEqual(['enter', 'unsure', 'a', 'b', 'note', 'put off']);
});

test('a second look has no switches to press and nothing to leave', () => {
  expect(pressed({ mode: 'check' })).toEqual(['enter', 'unsure', 'put off']);
});

test('while it is patched nothing is left on purpose', () => {
  expect(pressed({ patching: true })).toEqual(['enter', 'unsure', 'a', 'b', 'put off']);
});

test('without a pair, while a note is written or a question is open, and on other pages they do nothing; a pair is put off on the first page too', () => {
  expect(pressed({ pair: false })).toEqual([]);
  expect(pressed({ leaving: true })).toEqual([]);
  expect(pressed({ asking: 'The plan says invert B. Accept it unchanged, on purpose?' })).toEqual([]);
  expect(pressed({ page: 'kit' })).toEqual([]);
  expect(pressed({ page: 'start' })).toEqual(['put off']);
});
