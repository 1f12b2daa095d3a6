/**
 * The page’s one policy of trusted types. Where a browser has them, and the page’s content policy asks for them, text
 * becomes elements or a program’s address nowhere else.
 */

interface Policy {
  createHTML(html: string): string;
  createScriptURL(url: string): string;
}

interface PolicyFactory {
  createPolicy(name: string, rules: Policy): Policy;
}

/** relative to the page */
export const SERVICE_WORKER = './serviceWorker.js';

/** the workers of this page's own, whatever their files are called by (`main.tsx`) */
const isOwnWorker = (url: string): boolean => {
  const { origin, pathname } = new URL(url, location.href);
  return origin === location.origin && /\/(take|pair)Worker[\w.-]*$/.test(pathname);
};

const rules: Policy = {
  createHTML: (html) => html,
  createScriptURL(url) {
    if (url !== SERVICE_WORKER && !isOwnWorker(url)) throw new TypeError(`no program of this page: ${url}`);
    return url;
  },
};

const { trustedTypes } = globalThis as { trustedTypes?: PolicyFactory };

/** Given to the compiled templates (`solidWeb.ts`) and to what starts the service worker and the workers of takes, and to nothing else. */
export const policy: Policy = trustedTypes?.createPolicy('crosshead', rules) ?? rules;
