/** The drums that were heard, in words: which is which, what each one says, which one the reading is about. */
import { answerOf, type DrumFacts, type HitCounts, type Reading, type Said } from '../../reading/reading';
import { cmPerSample, hitsText, hzText, lowerFirst, spanText } from '../../text/rounded';
import { endedWords, reasonWords } from './reasonWords';

/** louder in B than every other drum by this, dB: less isn't heard as louder */
const LOUDER_DB = 3;

/**
 * "drum 2 (loudest in B, energy round 551 Hz in A)": what tells a drum from the others. Never low or high: a beater or a cymbal
 * may put the middle of a kick's energy above a snare's. Which is the loudest in A is said by their order.
 */
export function drumName(drum: DrumFacts, { drums }: { drums: DrumFacts[] }): string {
  const others = drums.filter(({ id }) => id !== drum.id);
  const level = drum.levelBDbfs;
  const loudest =
    level !== null &&
    others.length > 0 &&
    others.every(({ levelBDbfs }) => levelBDbfs !== null && level >= levelBDbfs + LOUDER_DB);
  const tells = [
    ...(loudest ? ['loudest in B'] : []),
    ...(drum.centreHz === null ? [] : [`energy round ${hzText(drum.centreHz)} in A`]),
  ];
  return `drum ${drum.id}${tells.length === 0 ? '' : ` (${tells.join(', ')})`}`;
}

/** "B 12 cm later", "B level with A" */
export function laterText(delaySamples: number, sampleRate: number, temperatureC: number): string {
  const cm = delaySamples * cmPerSample(sampleRate, temperatureC);
  return Math.abs(cm) < 0.05 ? 'B level with A' : `B ${spanText(cm)} ${cm > 0 ? 'later' : 'earlier'}`;
}

/** A drum's own answer in short, `ended` as in AdviceContext: "inverted, B 12 cm later", "listening: hit 2 of 4", "can't tell: the hits don't agree". */
export function drumAnswer(
  drum: Pick<Said, 'state' | 'reason' | 'polarity' | 'delaySamples' | keyof HitCounts>,
  reading: Pick<Reading, 'sampleRate' | 'hitsNeeded'>,
  temperatureC: number,
  ended = false,
): string {
  const { state, polarity, delaySamples } = drum;
  if (state === 'measured' && delaySamples !== null) {
    return `${polarity ?? 'no polarity'}, ${laterText(delaySamples, reading.sampleRate, temperatureC)}`;
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
  return reading.drumChosen ? `drum ${reading.drum}, as chosen` : 'the loudest in A';
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
