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
      return 'A and B carry the same signal: one input is routed twice, which says nothing about the converters. Split one mic ahead of both inputs; a condenser gets phantom from one input only.';
    case 'one-silent':
      return `Input ${found.silent.toUpperCase()} is silent. Drummer stopped, monitors down: check its cable and gain, and phantom if it’s a condenser. Both inputs need the same source.`;
    case 'hits-disagree':
      return `Not steady enough: ${found.agreeing === 0 ? 'none' : `only ${found.agreeing}`} of ${hitsText(found.hits)} agree. Put one source on both inputs, make short sharp sounds with pauses between them, then start over.`;
    case 'unlike-waveforms':
      return 'The two inputs don’t hear the same thing. Split one mic, or hold the two mics closer together, then start over.';
    case 'scatter':
      return `Not steady enough: hit-to-hit spread ${fixedSamples(found.scatterSamples, 2)}. Keep the source in one place, at the same distance from both mics, then start over.`;
    case 'inverted':
      return 'B is inverted relative to A: that’s a switch, a cable or a mic, never a converter. Monitors down, put it right, then start over.';
    case 'too-far':
      return `B and A are ${fixedMs(found.delayMs, 1)} apart: too much for converters. Look for a wrong patch, or a delay or plug-in in one path, then start over.`;
    case 'nothing':
      return `The two inputs match to within ${found.withinSamples} samples: nothing to correct.`;
  }
}

function sureText({ delaySamples, delayMs, pathCm, agreeing, hits, unusual }: OffsetSure): string {
  const later = delaySamples > 0 ? 'B' : 'A';
  const size = `${fixedSamples(Math.abs(delaySamples), 2)} (${fixedMs(Math.abs(delayMs), 3)})`;
  const doubt = unusual ? ' That’s a lot for converters: check that both inputs have the same source.' : '';
  return `${later} is ${size} later, the same as ${spanText(pathCm)} of air. ${agreeing} of ${hitsText(hits)} agree.${doubt}`;
}
