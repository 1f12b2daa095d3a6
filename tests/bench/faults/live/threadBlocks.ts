/** Blocks that are lost, doubled or spoiled on the audio thread, and messages that don't arrive as they were sent. */
import { portFault } from './lab';
import type { ThreadFault } from './labThread';
import type { LiveFault } from './liveTrial';
import { DROPS, METER_ERROR, NOTHING_ARRIVES } from './threadTime';

const blocks = (
  name: string,
  strike: ThreadFault,
  told: LiveFault['told'],
  more: Partial<LiveFault> = {},
): LiveFault => ({
  sub: 'blocks',
  name,
  how: 'changed on the way into the meter',
  told,
  withinMs: 6000,
  lastsMs: 8000,
  recovers: 'by itself, once it is over',
  byItself: true,
  strike,
  ...more,
});
const values = (name: string, strike: ThreadFault, told: LiveFault['told']): LiveFault => ({
  ...blocks(name, strike, told),
  sub: 'values',
});
/** as a gap, or as numbers that are none */
const NO_NUMBERS = /gap|not numbers|no numbers|isn’t a number|aren’t numbers|Nothing arrives|damaged|corrupt/i;
const messages = (
  name: string,
  how: 'lost' | 'late' | 'backwards' | 'garbage',
  told: LiveFault['told'],
): LiveFault => ({
  sub: 'messages',
  name,
  how: 'between the audio thread and a page that isn’t isolated',
  before: { notIsolated: true },
  told,
  lastsMs: 5000,
  recovers: 'by itself, once they arrive',
  byItself: true,
  strike: ({ page }) => portFault(page, how),
  mend: ({ page }) => portFault(page, null),
});

const FOR_GOOD = { every: 1, run: 1 };
const ONCE = 1e9;

export const THREAD_BLOCKS: readonly LiveFault[] = [
  blocks('one block of 50 is lost', { drop: { every: 50, run: 1 } }, DROPS),
  blocks('one block of 3 is lost', { drop: { every: 3, run: 1 } }, DROPS),
  blocks('two of three blocks are lost', { drop: { every: 3, run: 2 } }, DROPS),
  blocks('10 blocks in a row of each 200 are lost', { drop: { every: 200, run: 10 } }, DROPS),
  blocks('100 blocks of each 400 are lost', { drop: { every: 400, run: 100 } }, DROPS),
  blocks('10 blocks are lost once', { drop: { every: ONCE, run: 10 } }, 'may'),
  blocks('one block of 50 comes twice', { twice: { every: 50, run: 1 } }, 'may'),
  blocks('two blocks of 50 come in the wrong order', { exchanged: { every: 50, run: 1 } }, 'may'),
  blocks('the frame counter jumps ahead by 4096', { jumpFrames: 4096 }, 'may'),
  blocks('the frame counter jumps ahead by a minute', { jumpFrames: 44_100 * 60 }, 'may'),
  blocks('the frame counter jumps back by 44100', { jumpFrames: -44_100 }, 'may'),
  blocks('no channels for 4 s', { noChannels: true, seconds: 4 }, NOTHING_ARRIVES),
  blocks('one channel only, for 4 s', { oneChannel: true, seconds: 4 }, NOTHING_ARRIVES),
  values('B is NaN', { fill: { ...FOR_GOOD, value: 'NaN', channel: 'b' } }, NO_NUMBERS),
  values('A and B are NaN', { fill: { ...FOR_GOOD, value: 'NaN', channel: 'both' } }, NO_NUMBERS),
  values('one block of 100 is NaN', { fill: { every: 100, run: 1, value: 'NaN', channel: 'both' } }, NO_NUMBERS),
  values('one block is NaN, once', { fill: { every: ONCE, run: 1, value: 'NaN', channel: 'a' } }, 'may'),
  values('A is infinite', { fill: { ...FOR_GOOD, value: 'Infinity', channel: 'a' } }, NO_NUMBERS),
  values('one block is infinite, once', { fill: { every: ONCE, run: 1, value: 'Infinity', channel: 'both' } }, 'may'),
  values('one block of 100 is 1e30', { fill: { every: 100, run: 1, value: '1e30', channel: 'both' } }, 'may'),
  values(
    'A and B are denormal numbers',
    { fill: { ...FOR_GOOD, value: '1e-40', channel: 'both' } },
    /Nothing arrives|no signal|silent/i,
  ),
  messages('messages are lost', 'lost', NOTHING_ARRIVES),
  messages('messages come 2.5 s late', 'late', 'may'),
  messages('messages come in another order', 'backwards', 'may'),
  messages('garbage comes beside the messages', 'garbage', 'nothing'),
  {
    sub: 'program',
    name: 'another version of the protocol',
    how: 'the node is built with version 99',
    told: METER_ERROR,
    recovers: 'Start over',
    before: { version: 99 },
    withinMs: 6000,
  },
  {
    sub: 'program',
    name: 'the node can’t be made',
    how: 'its constructor throws',
    told: METER_ERROR,
    recovers: 'Start over',
    before: { noNode: { times: 1 } },
    withinMs: 6000,
  },
  {
    sub: 'program',
    name: 'the meter’s program isn’t on the server',
    how: '404 for it, once',
    told: /The meter’s program doesn’t arrive/,
    recovers: 'Start over',
    before: { moduleMissing: { times: 1 } },
    withinMs: 8000,
  },
];
