/** From what a browser throws to one sentence: what is wrong and what to do next. */
import { type Problem, ProblemError } from './link';

type Code = Problem['code'];

const SENTENCES = {
  'permission-refused':
    'The browser was not allowed to use the audio input; allow the microphone for this page in the address bar, then connect again.',
  'no-device': 'No audio input was found; plug the interface in, see that the system lists it, then connect again.',
  'device-busy':
    'The audio input could not be opened; a recording program may be holding it for itself: close that or free the device there, then connect again.',
  'no-worklet':
    'This browser can’t run the meter on its audio thread; use a current Chromium-based browser, Firefox or Safari.',
  'insecure-page':
    'Browsers give audio inputs only to secure pages; open this page by https, or from localhost on this machine.',
} satisfies Partial<Record<Code, string>>;

export function problem(code: Code, text: string): ProblemError {
  return new ProblemError({ code, text });
}

export function knownProblem(code: keyof typeof SENTENCES): ProblemError {
  return problem(code, SENTENCES[code]);
}

const nameOf = (thrown: unknown): string =>
  typeof thrown === 'object' && thrown !== null && 'name' in thrown ? String(thrown.name) : '';

/** What getUserMedia rejected with (names: W3C Media Capture and Streams, "getUserMedia"). */
export function inputProblem(thrown: unknown): ProblemError {
  switch (nameOf(thrown)) {
    case 'NotAllowedError':
    case 'SecurityError':
      return knownProblem('permission-refused');
    case 'NotFoundError':
      return knownProblem('no-device');
    case 'NotReadableError':
    case 'AbortError':
      return knownProblem('device-busy');
    case 'OverconstrainedError':
      return problem('no-device', 'The input chosen before is not there any more; plug it in again or choose another.');
    default:
      return problem('unknown', `The audio input could not be opened (${detailOf(thrown)}); connect again.`);
  }
}

/** The meter's program could not be loaded, or failed while it ran. */
export function faultProblem(thrown: unknown): ProblemError {
  return problem('worklet-fault', `The meter stopped by a fault of its own (${detailOf(thrown)}); press “Start over”.`);
}

/** A context that can't be had at this rate, or a browser that would not start it; problems pass through. */
export function contextProblem(thrown: unknown, sampleRate?: number): ProblemError {
  if (thrown instanceof ProblemError) return thrown;
  if (sampleRate !== undefined && (nameOf(thrown) === 'NotSupportedError' || thrown instanceof RangeError)) {
    return problem(
      'unsupported-file',
      `This browser can’t work at ${sampleRate} Hz; use 44.1, 48 or 96 kHz and try again.`,
    );
  }
  return problem(
    'unknown',
    `The browser could not start its audio (${detailOf(thrown)}); reload the page and try again.`,
  );
}

function detailOf(thrown: unknown): string {
  if (thrown instanceof Error && thrown.message) return thrown.message.replace(/\.$/, '');
  return nameOf(thrown) || (typeof thrown === 'string' && thrown) || 'no reason given';
}

/** @throws ProblemError where the page can't run a meter at all */
export function requireWorklet(): void {
  if (globalThis.isSecureContext === false) throw knownProblem('insecure-page');
  if (typeof AudioWorkletNode === 'undefined') throw knownProblem('no-worklet');
}
