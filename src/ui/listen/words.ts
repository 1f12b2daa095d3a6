/** What the listening strip says. */
import type { Matched } from '../../listen/matching';
import type { Stretch } from '../../listen/stretch';
import type { Put, Start } from '../../listen/version';
import type { SilentReason } from '../../state/listen/listening';
import { hitsText } from '../../text/count';
import { dbFigure } from '../../text/level';
import { signed } from '../../text/number';

export const PUT_WORDS: Readonly<Record<Put, string>> = {
  both: 'A+B',
  a: 'A alone',
  b: 'B alone',
  apart: 'A left, B right',
};
export const STRETCH_WORDS: Readonly<Record<Stretch, string>> = { hit: 'One hit', bar: 'A bar' };
export const START_WORDS: Readonly<Record<Start, string>> = { equal: 'Equal levels', recorded: 'As recorded' };

export function silentText(reason: SilentReason): string {
  switch (reason.code) {
    case 'no-sound':
      return 'Nothing kept yet: after a few hits, press “Play”.';
    case 'no-hit':
      return 'No whole hit kept yet: after a few more, press “Play”.';
    case 'runaway':
      return 'Muted: the sound kept rising, as feedback does. Turn loudspeakers off, use closed headphones, then press “Hear live” again.';
    case 'failed':
      return reason.text;
  }
}

/** "matched: −2.4 dB" @param isLive open mics, which no version turns up */
export function matchedText(matched: Matched | null, isLive = false): string {
  if (matched === null) return 'not matched yet';
  if (matched.gainDb === null) return 'silent: nothing to match';
  const gain = Math.abs(matched.gainDb) < 0.05 ? 'matched: 0 dB' : `matched: ${signed(matched.gainDb, 1)} dB`;
  if (matched.shortDb <= 0.05) return gain;
  const softer = `${dbFigure(matched.shortDb)} softer`;
  return isLive ? `${gain} (live: not turned up, ${softer})` : `${gain}, still ${softer}`;
}

/** What the others are as loud as. */
export const matchedWithText = (to: Put = 'both'): string => (to === 'both' ? '“Now”' : PUT_WORDS[to]);

/** "One hit" and "A bar" say what was asked for; this, what is in it. */
export const loopText = (hits: number | null): string => (hits === null ? '' : `${hitsText(hits)}, round and round`);
