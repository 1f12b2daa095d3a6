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
      return 'Starting …';
    case 'nothing-heard':
      return 'Nothing heard yet: clap, or hit two sticks together.';
    case 'too-few-hits':
      return `${found.hits} of ${hitsText(found.needed)} heard: keep going.`;
  }
}

function refusedText(found: OffsetRefused): string {
  switch (found.code) {
    case 'bit-identical':
      return 'Both inputs are the same bit for bit: one signal routed twice, which says nothing about the converters. Split the source ahead of the inputs.';
    case 'one-silent':
      return `Input ${found.silent.toUpperCase()} is silent: check its cable and gain. Both have to hear the source.`;
    case 'hits-disagree':
      return `${found.agreeing === 0 ? 'None' : `Only ${found.agreeing}`} of ${hitsText(found.hits)} agree: not good enough. Both inputs on one source, short sharp sounds with pauses between them, then start over.`;
    case 'unlike-waveforms':
      return 'The two inputs don’t hear the same thing: not good enough. Split one source, or hold the microphones closer together, then start over.';
    case 'scatter':
      return `Hit-to-hit spread ${fixedSamples(found.scatterSamples, 2)}: not good enough. Keep the source in one place, equally far from both microphones, then start over.`;
    case 'inverted':
      return 'B is inverted against A: that is a switch, a cable or a microphone, never a converter. Put it right, then start over.';
    case 'too-far':
      return `B and A are ${fixedMs(found.delayMs, 1)} apart: too much for converters. Look for a wrong patch, or a delay or effect in one path, then start over.`;
    case 'nothing':
      return `The two paths match within ${found.withinSamples} samples: nothing to take out.`;
  }
}

function sureText({ delaySamples, delayMs, pathCm, agreeing, hits, unusual }: OffsetSure): string {
  const later = delaySamples > 0 ? 'B' : 'A';
  const size = `${fixedSamples(Math.abs(delaySamples), 2)} (${fixedMs(Math.abs(delayMs), 3)})`;
  const doubt = unusual ? ' That is a lot for converters: make sure both have one source.' : '';
  return `${later} is ${size} later, like ${spanText(pathCm)} of air. ${agreeing} of ${hitsText(hits)} agree.${doubt}`;
}
