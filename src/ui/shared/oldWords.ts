/** What is said of a reading that is old, and of what keeps the next one away. */
import { type Halt, haltOf, isHalted, type Meter } from '../../state/meter/meterTypes';
import { secondsText } from '../../text/clock';

export type Told = NonNullable<ReturnType<Meter['problem']>>;
type Seen = Pick<Meter, 'run' | 'reading' | 'oldAt' | 'problem' | 'aside'>;

/** What is on the screen was read before the input stood still. */
export const isOld = ({ run, reading }: Pick<Seen, 'run' | 'reading'>): boolean =>
  isHalted(run()) && reading() !== null;

/** "audio is dropped": what goes with "since" and after "No reading:" */
export const HALT_WORDS: Record<Halt, string> = {
  dropped: 'audio is dropped',
  'other-input': 'maybe another input',
  mix: 'A and B carry a mix',
  fault: 'the meter has stopped',
  none: 'nothing arrives',
};

/** "Old reading, from 14:10:32: nothing arrives since"; empty: it is none */
export function oldText(meter: Seen): string {
  if (!isOld(meter)) return '';
  const at = meter.oldAt();
  const since = HALT_WORDS[haltOf(meter)];
  return at === null ? `Old reading: ${since} now` : `Old reading, from ${secondsText(at)}: ${since} since`;
}

const SHORT: Partial<Record<Told['code'], string>> = {
  'input-lost': 'The input is gone.',
  'input-changed': 'The system delivers another input.',
  'input-muted': 'The system has muted the input.',
  'no-data': 'Nothing arrives.',
  'dropped-audio': 'The computer drops audio.',
  'worklet-fault': 'The meter stopped on an error.',
  'one-channel': 'A and B carry the same signal.',
  'mixed-channels': 'A and B carry a mix of the same channels.',
  'processing-on': 'Voice processing is on.',
  'no-device': 'The input isn’t there.',
  'device-busy': 'The input could not be opened.',
  'permission-refused': 'The browser refused the input.',
};

/** What stays of a note that was closed. */
export const shortText = ({ code }: Told): string => SHORT[code] ?? 'The source stopped.';
