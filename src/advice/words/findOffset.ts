/** What the mode that measures the input offset has found, and what to do next: pure, from the newest reading. */

import { speedOfSound } from '../../reading/acoustics';
import { MAX_OFFSET_SECONDS } from '../../reading/limits';
import type { Reading } from '../../reading/reading';
import { fixedSamples, hitsText } from '../../text/count';
import { spanText } from '../../text/length';
import { fixedMs } from '../../text/time';

/** while measuring, delays are looked for beyond what may be taken out: a wrong patch shows as what it is */
export const OFFSET_REACH_MS = 34;

const HITS_NEEDED = 4;
const LEAST_AGREEMENT = 0.75;
/** median deviation, s: 2 mm of path; a split source repeats within 0.4 µs, drums between two microphones rarely within 5 */
const SCATTER_SECONDS = 0.000005;
/** a split source reaches 0.99 and more, unlike microphones at one spot 0.98; clicks at the two ears of a head 0.9 */
const LEAST_HEIGHT = 0.975;
/** farther apart than this, a person had better look twice, s (common practice, no source) */
const UNUSUAL_SECONDS = 0.001;
/** nothing to take out below, samples */
const NOTHING_SAMPLES = 0.05;

export interface OffsetFinding {
  fate: 'listening' | 'refused' | 'sure';
  /** delay of B's path against A's, samples, to 0.01; null unless sure */
  offsetSamples: number | null;
  /** what was found, and what to do next */
  text: string;
}

const listening = (text: string): OffsetFinding => ({ fate: 'listening', offsetSamples: null, text });
const refused = (text: string): OffsetFinding => ({ fate: 'refused', offsetSamples: null, text });

export function findOffset(reading: Reading, temperatureC: number): OffsetFinding {
  const { gauge: g, sampleRate } = reading;
  const { a, b, bitIdentical } = reading.inputs;
  if (g === null) return listening('Listening begins …');
  if (bitIdentical) {
    return refused(
      'Both inputs are equal bit for bit: one signal is routed twice, which says nothing about the converters. Split the source before the inputs.',
    );
  }
  if (g.hits === 0) {
    if (a.silent !== b.silent)
      return refused(`Input ${a.silent ? 'A' : 'B'} is silent: check its cable and gain. Both must hear the source.`);
    return listening('Nothing heard yet: click or clap.');
  }
  if (g.hits < HITS_NEEDED) return listening(`${g.hits} of ${hitsText(HITS_NEEDED)} heard: go on.`);
  const { offsetSamples, scatterSamples, height } = g;
  const agree = g.agreeing >= HITS_NEEDED && g.agreeing >= LEAST_AGREEMENT * g.hits;
  if (!agree || offsetSamples === null || scatterSamples === null || height === null)
    return refused(
      `${g.agreeing === 0 ? 'None' : `Only ${g.agreeing}`} of ${hitsText(g.hits)} agree: that is too unsure. Make short, sharp sounds with pauses between them, both inputs on one source, and start over.`,
    );
  if (height < LEAST_HEIGHT)
    return refused(
      'The two inputs don’t hear the same thing: that is too unsure. Split one source, or hold the microphones closer together, and start over.',
    );
  if (scatterSamples > SCATTER_SECONDS * sampleRate)
    return refused(
      `The hits scatter by ${fixedSamples(scatterSamples, 2)}: that is too unsure. Keep the source at one place, as far from one microphone as from the other, and start over.`,
    );
  if (g.polarity === 'inverted')
    return refused(
      'B is inverted against A: a switch, a cable or a microphone does that, no converter. Put it right, then start over.',
    );
  const seconds = offsetSamples / sampleRate;
  const ms = Math.abs(seconds * 1000);
  if (Math.abs(seconds) > MAX_OFFSET_SECONDS)
    return refused(
      `B and A are ${fixedMs(ms, 1)} apart: too much for converters. Look for a wrong patch, or for a delay or an effect in one path, then start over.`,
    );
  if (Math.abs(offsetSamples) < NOTHING_SAMPLES)
    return refused(`The two paths are alike, within ${NOTHING_SAMPLES} samples: there is nothing to take out.`);
  const path = spanText(seconds * speedOfSound(temperatureC) * 100);
  const doubt =
    Math.abs(seconds) > UNUSUAL_SECONDS ? ' That is much for converters: be sure that both have one source.' : '';
  return {
    fate: 'sure',
    offsetSamples: Math.round(offsetSamples * 100) / 100,
    text: `${offsetSamples > 0 ? 'B' : 'A'} is ${fixedSamples(Math.abs(offsetSamples), 2)} (${fixedMs(ms, 3)}) later, as ${path} of air would make it. ${g.agreeing} of ${hitsText(g.hits)} agree.${doubt}`,
  };
}
