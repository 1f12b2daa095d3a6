/** The drums that were heard, in words: what each one says, which one the reading is about. */
import { cmPerSample } from '../../reading/acoustics';
import { answerOf, type HitCounts, type Reading, type Said } from '../../reading/reading';
import { hitsText } from '../../text/count';
import { laterText } from '../../text/length';
import { drumNumber } from '../../text/names';
import { lowerFirst } from '../../text/sentence';
import { endedWords, reasonWords } from './reasonWords';

/** A drum's own answer in short, `ended` as in AdviceContext: "inverted, B 12 cm later", "listening: hit 2 of 4", "can't tell: the hits don't agree". */
export function drumAnswer(
  drum: Pick<Said, 'state' | 'reason' | 'polarity' | 'delaySamples' | keyof HitCounts>,
  reading: Pick<Reading, 'sampleRate' | 'hitsNeeded'>,
  temperatureC: number,
  ended = false,
): string {
  const { state, polarity, delaySamples } = drum;
  if (state === 'measured' && delaySamples !== null) {
    const cm = delaySamples * cmPerSample(reading.sampleRate, temperatureC);
    return `${polarity ?? 'no polarity'}, ${laterText(cm)}`;
  }
  const stated = { hitsNeeded: reading.hitsNeeded, ...drum };
  const over = ended ? endedWords(stated) : null;
  if (over) return lowerFirst(over.short);
  const { short } = reasonWords(stated);
  if (state === 'following') return 'on the move';
  return `${state === 'listening' ? 'listening' : "can't tell"}: ${short}`;
}

/** Which drum the reading is about, where several are heard: "the loudest in A", "drum 2, as chosen"; empty otherwise. */
export function whichDrum(reading: Reading): string {
  if (reading.drums.length < 2 || reading.drum === null) return '';
  return reading.drumChosen ? `${drumNumber(reading.drum)}, as chosen` : 'the loudest in A';
}

/** What the reading used: "9 of all 31 hits: the loudest in A"; "6 of 6 hits" where one drum is heard. */
export function usedText(reading: Reading): string {
  const { hits, drums, perHit } = reading;
  const { hitsUsed } = answerOf(reading);
  const which = whichDrum(reading);
  if (drums.length > 1) return `${hitsUsed} of all ${hitsText(hits)}${which === '' ? '' : `: ${which}`}`;
  // of one drum, those that are too old were not refused
  const running = perHit.filter((hit) => hit.fate !== 'old').length;
  return `${hitsUsed} of ${hitsText(Math.max(hitsUsed, perHit.length > 0 ? running : hits))}`;
}
