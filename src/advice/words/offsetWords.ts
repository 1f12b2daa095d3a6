/** What was found while the input offset is measured, in words: what it is, and what to do next. */

import { fixedSamples, hitsText } from '../../text/count';
import { spanText } from '../../text/length';
import { fixedMs } from '../../text/time';
import type { OffsetFinding, OffsetListening, OffsetRefused, OffsetSure } from '../plan/offsetFinding';

export interface OffsetSaid {
  fate: OffsetFinding['fate'];
  /** delay of B's path against A's, samples, to 0.01; null unless sure */
  offsetSamples: number | null;
  /** what was found, and what to do next */
  text: string;
}

export function sayOffset(found: OffsetFinding): OffsetSaid {
  const { fate } = found;
  if (found.fate === 'sure') return { fate, offsetSamples: found.offsetSamples, text: sureText(found) };
  return { fate, offsetSamples: null, text: found.fate === 'listening' ? listeningText(found) : refusedText(found) };
}

function listeningText(found: OffsetListening): string {
  switch (found.code) {
    case 'beginning':
      return 'Listening begins …';
    case 'nothing-heard':
      return 'Nothing heard yet: click or clap.';
    case 'too-few-hits':
      return `${found.hits} of ${hitsText(found.needed)} heard: go on.`;
  }
}

function refusedText(found: OffsetRefused): string {
  switch (found.code) {
    case 'bit-identical':
      return 'Both inputs are equal bit for bit: one signal is routed twice, which says nothing about the converters. Split the source before the inputs.';
    case 'one-silent':
      return `Input ${found.silent.toUpperCase()} is silent: check its cable and gain. Both must hear the source.`;
    case 'hits-disagree':
      return `${found.agreeing === 0 ? 'None' : `Only ${found.agreeing}`} of ${hitsText(found.hits)} agree: that is too unsure. Make short, sharp sounds with pauses between them, both inputs on one source, and start over.`;
    case 'unlike-waveforms':
      return 'The two inputs don’t hear the same thing: that is too unsure. Split one source, or hold the microphones closer together, and start over.';
    case 'scatter':
      return `The hits scatter by ${fixedSamples(found.scatterSamples, 2)}: that is too unsure. Keep the source at one place, as far from one microphone as from the other, and start over.`;
    case 'inverted':
      return 'B is inverted against A: a switch, a cable or a microphone does that, no converter. Put it right, then start over.';
    case 'too-far':
      return `B and A are ${fixedMs(found.delayMs, 1)} apart: too much for converters. Look for a wrong patch, or for a delay or an effect in one path, then start over.`;
    case 'nothing':
      return `The two paths are alike, within ${found.withinSamples} samples: there is nothing to take out.`;
  }
}

function sureText({ delaySamples, delayMs, pathCm, agreeing, hits, unusual }: OffsetSure): string {
  const later = delaySamples > 0 ? 'B' : 'A';
  const size = `${fixedSamples(Math.abs(delaySamples), 2)} (${fixedMs(Math.abs(delayMs), 3)})`;
  const doubt = unusual ? ' That is much for converters: be sure that both have one source.' : '';
  return `${later} is ${size} later, as ${spanText(pathCm)} of air would make it. ${agreeing} of ${hitsText(hits)} agree.${doubt}`;
}
