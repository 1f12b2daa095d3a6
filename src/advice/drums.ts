/** The drums that were heard, in words: which is which, what each one says, which one the reading is about. */
import type { DrumReading, Reading } from '../dsp/reading';
import { cmPerSample, hitsText, hzText, spanText } from './format';
import { reasonWords } from './sentences';

/** energies whose middles lie closer than this ratio are neither low nor high beside each other */
const APART = 1.3;

/** "drum 1, low (62 Hz)": low and high among the drums that were heard. */
export function drumName(drum: DrumReading, reading: Pick<Reading, 'drums'>): string {
  const name = `drum ${drum.id}`;
  const hz = drum.centreHz;
  if (hz === null) return name;
  const others = reading.drums.flatMap((d) => (d.id === drum.id || d.centreHz === null ? [] : [d.centreHz]));
  const lowest = others.length > 0 && others.every((other) => other > hz * APART);
  const highest = others.length > 0 && others.every((other) => other * APART < hz);
  return `${name}${lowest ? ', low' : highest ? ', high' : ''} (${hzText(hz)})`;
}

/** "B 12 cm later", "B level with A" */
export function laterText(delaySamples: number, sampleRate: number, temperatureC: number): string {
  const cm = delaySamples * cmPerSample(sampleRate, temperatureC);
  return Math.abs(cm) < 0.05 ? 'B level with A' : `B ${spanText(cm)} ${cm > 0 ? 'later' : 'earlier'}`;
}

/** A drum's own answer in short: "inverted, B 12 cm later", "listening: hit 2 of 4", "can't tell: the hits don't agree". */
export function drumAnswer(
  drum: DrumReading,
  reading: Pick<Reading, 'sampleRate' | 'hitsNeeded'>,
  temperatureC: number,
): string {
  const { state, polarity, delaySamples } = drum;
  if (state === 'measured' && delaySamples !== null) {
    return `${polarity ?? 'no polarity'}, ${laterText(delaySamples, reading.sampleRate, temperatureC)}`;
  }
  const { short } = reasonWords({ hitsNeeded: reading.hitsNeeded, ...drum });
  if (state === 'following') return 'on the move';
  return `${state === 'listening' ? 'listening' : "can't tell"}: ${short}`;
}

/** Which drum the reading is about, where several are heard: "the loudest in A", "drum 2, as chosen"; empty otherwise. */
export function whichDrum(reading: Reading): string {
  if (reading.drums.length < 2 || reading.drum === null) return '';
  return reading.drumChosen ? `drum ${reading.drum}, as chosen` : 'the loudest in A';
}

/** What the reading used: "9 of 31 hits: the loudest in A"; "6 of 6 hits" where one drum is heard. */
export function usedText(reading: Reading): string {
  const { hits, hitsUsed, drums, perHit } = reading;
  const which = whichDrum(reading);
  if (drums.length > 1) return `${hitsUsed} of ${hitsText(hits)}${which === '' ? '' : `: ${which}`}`;
  // of one drum, those that are too old were not refused
  const running = perHit.filter((hit) => hit.fate !== 'old').length;
  return `${hitsUsed} of ${hitsText(Math.max(hitsUsed, perHit.length > 0 ? running : hits))}`;
}
