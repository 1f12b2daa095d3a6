/** What keeps an audio input from being opened, in one sentence with what to do next. */
import type { ProblemError } from '../link';
import { detailOf, nameOf, PAGE_SENTENCES, problem } from '../problems';

const SENTENCES = {
  ...PAGE_SENTENCES,
  'permission-refused':
    'The browser blocked the audio input; allow the microphone for this page in the address bar, then press “Try again”.',
  'no-device':
    'No audio input found; plug the interface in, check that the system lists it, then press “Try again”. If it’s listed and still not found, restart the browser.',
  'device-busy':
    'The audio input couldn’t be opened; your DAW may have it: close it or release the device there, then press “Try again”.',
};

export function knownProblem(code: keyof typeof SENTENCES): ProblemError {
  return problem(code, SENTENCES[code]);
}

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
      return problem(
        'no-device',
        'The input you chose has disconnected; monitors down, plug it back in, or choose another.',
      );
    default:
      return problem('unknown', `The audio input couldn’t be opened (${detailOf(thrown)}); press “Try again”.`);
  }
}
