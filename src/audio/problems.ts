/** From what a browser throws to one sentence: what is wrong and what to do next. */
import { type Problem, ProblemError } from './link';

type Code = Problem['code'];

/** Of a page that can’t run a meter at all. */
export const PAGE_SENTENCES = {
  'no-worklet': 'This browser can’t run the meter on its audio thread; update it, or use another one.',
  'insecure-page':
    'Browsers open audio inputs only on secure pages; open this page over https, or from localhost on this machine.',
} satisfies Partial<Record<Code, string>>;

export function problem(code: Code, text: string): ProblemError {
  return new ProblemError({ code, text });
}

export const nameOf = (thrown: unknown): string =>
  typeof thrown === 'object' && thrown !== null && 'name' in thrown ? String(thrown.name) : '';

/** The meter's program could not be loaded, or failed while it ran. */
export function faultProblem(thrown: unknown): ProblemError {
  return problem('worklet-fault', `The meter hit an error (${detailOf(thrown)}); press “Start over”.`);
}

/** A context that can't be had at this rate, or a browser that would not start it; problems pass through. */
export function contextProblem(thrown: unknown, sampleRate?: number): ProblemError {
  if (thrown instanceof ProblemError) return thrown;
  if (sampleRate !== undefined && (nameOf(thrown) === 'NotSupportedError' || thrown instanceof RangeError)) {
    return problem(
      'unsupported-file',
      `This browser can’t run at ${sampleRate} Hz; use 44.1, 48 or 96 kHz and try again.`,
    );
  }
  return problem('unknown', `The browser couldn’t start audio (${detailOf(thrown)}); reload the page and try again.`);
}

export function detailOf(thrown: unknown): string {
  if (thrown instanceof Error && thrown.message) return thrown.message.replace(/\.$/, '');
  return nameOf(thrown) || (typeof thrown === 'string' && thrown) || 'no reason given';
}

/** @throws ProblemError where the page can't run a meter at all */
export function requireWorklet(): void {
  if (globalThis.isSecureContext === false) throw problem('insecure-page', PAGE_SENTENCES['insecure-page']);
  if (typeof AudioWorkletNode === 'undefined') throw problem('no-worklet', PAGE_SENTENCES['no-worklet']);
}
