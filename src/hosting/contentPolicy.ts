/** What the built page may load and do, and the headers that a server of it should send. Development (vite) runs without. */

/** the one policy that may make HTML or a program’s address from text: `src/ui/trusted/policy.ts` */
const TRUSTED_POLICY = 'crosshead';

const DIRECTIVES = [
  "default-src 'self'",
  "script-src 'self' 'wasm-unsafe-eval'",
  "style-src 'self'",
  "img-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "require-trusted-types-for 'script'",
  `trusted-types ${TRUSTED_POLICY}`,
];

/** stands in the page itself, so that it holds on every server */
export const CONTENT_POLICY = DIRECTIVES.join('; ');

/** `frame-ancestors` holds in a header only. COOP and COEP isolate the page, which shared memory asks for. */
export const PAGE_HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': `${CONTENT_POLICY}; frame-ancestors 'none'`,
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
};
