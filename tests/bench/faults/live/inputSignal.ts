/** What a device may deliver in place of the two microphones. */
import type { PageFault } from './lab';
import type { ThreadFault } from './labThread';
import type { LiveFault } from './liveTrial';
import { furtherBy, PAIR, SWAPPED } from './pair';

const signal = (
  name: string,
  strike: ThreadFault,
  told: LiveFault['told'],
  more: Partial<LiveFault> = {},
): LiveFault => ({
  sub: 'signal',
  name,
  how: 'samples changed on their way into the meter',
  told,
  withinMs: 5000,
  lastsMs: 7000,
  recovers: 'by itself, once it is over',
  byItself: true,
  strike,
  ...more,
});
const gain = (name: string, strike: ThreadFault): LiveFault => ({
  ...signal(name, strike, 'may'),
  sub: 'gain',
  // nothing is voided: the reading goes on
  backMs: 3000,
});
const processing = (keeps: NonNullable<PageFault['keeps']>, words: RegExp): LiveFault => ({
  sub: 'same signal',
  name: `${keeps} stays on`,
  how: 'the browser’s own processing of the fake device',
  told: words,
  withinMs: 8000,
  recovers: 'not without the system: nothing is certain meanwhile',
  before: { keeps },
  truth: [],
  after: [],
  noReading: true,
});
const rate = (hz: number, told: LiveFault['told'], more: Partial<LiveFault> = {}): LiveFault => ({
  sub: 'rate',
  name: `the device says ${hz} Hz`,
  how: 'its settings say so, so the context runs at that',
  told,
  recovers: 'it goes on',
  before: { rate: hz },
  withinMs: 6000,
  ...more,
});

const SAME = /carry the same signal/;
const SILENT = /silent|no signal|dead|Nothing (arrives|on)|not even noise/i;

export const INPUT_SIGNAL: readonly LiveFault[] = [
  signal('mono: B is A', { mono: true }, SAME, { sub: 'same signal' }),
  processing('echoCancellation', /echo cancellation/),
  processing('noiseSuppression', /noise suppression|same signal/),
  processing('autoGainControl', /automatic gain control|same signal/),
  signal('each in the other, −1 dB: a mix', { mix: 0.9 }, /mix|same signal/i, { sub: 'same signal', lastsMs: 9000 }),
  signal('each in the other, −20 dB: bleed', { mix: 0.1 }, 'nothing'),
  signal('A is dead', { gainA: 0 }, SILENT),
  signal('B is dead', { gainB: 0 }, SILENT),
  signal('A and B are digital silence', { gainA: 0, gainB: 0 }, SILENT),
  signal('A is down to the converter’s noise', { gainA: 1e-4, noise: 1e-5 }, SILENT),
  signal('0.3 DC in A', { dcA: 0.3 }, 'may'),
  signal('0.3 DC in both', { dcA: 0.3, dcB: -0.3 }, 'may'),
  signal('clipped at the input', { clipAt: 0.02 }, /A clips|B clips/),
  signal('hum, −40 dBFS', { hum: 0.01 }, 'may'),
  signal('hum, −12 dBFS', { hum: 0.25 }, 'may'),
  signal('noise, −30 dBFS', { noise: 0.1 }, 'may'),
  signal('gaps of 1024 zeros, now and then', { zeros: { every: 900, run: 8 } }, 'may'),
  signal('gaps of 1024 zeros, four a second', { zeros: { every: 86, run: 8 } }, 'may'),
  signal('A and B exchanged at the device', { swap: true }, 'may', {
    truth: [PAIR, SWAPPED],
    lastsMs: 9000,
  }),
  signal('B moved by 39 cm', { delayB: 50 }, /mov(ed|ing)|Move/, { truth: [PAIR, furtherBy(50)], withinMs: 6000 }),
  signal('B inverted at the device', { gainB: -1 }, /[Pp]olarity (flipped|inverted since)|other drum/, {
    truth: [PAIR, { ...PAIR, polarity: 'same' }],
    withinMs: 6000,
  }),
  gain('A turned up by 20 dB', { gainA: 10, clipAt: 10 }),
  gain('A turned down by 20 dB', { gainA: 0.1 }),
  gain('B turned down by 20 dB', { gainB: 0.1 }),
  gain('both turned down by 20 dB', { gainA: 0.1, gainB: 0.1 }),
  gain('A turned up by 6 dB', { gainA: 2 }),
  rate(96_000, 'nothing'),
  rate(48_000, 'nothing'),
  rate(22_050, 'nothing'),
  rate(8000, 'may', { noReading: true, truth: [PAIR], lastsMs: 8000 }),
  rate(1000, /can’t run at 1000 Hz|couldn’t start audio/, { noReading: true }),
];
