/**
 * The bundler’s loader asks for a part’s stylesheet once: when it is asked again after a failure it brings the part
 * without its looks. So what failed is asked for here first.
 */

/** @param load an `import()`. @returns the same, rejecting where the part or its looks can’t be had now */
export function withStyles<Program>(load: () => Promise<Program>): () => Promise<Program> {
  let missing: string[] = [];
  return async () => {
    await Promise.all(missing.map(fetchStyle));
    missing = [];
    const others = new Set(stylesheets());
    try {
      return await load();
    } catch (thrown) {
      missing = stylesheets().flatMap((link) => (others.has(link) || hasRules(link) ? [] : [link.href]));
      throw thrown;
    }
  };
}

const stylesheets = (): HTMLLinkElement[] => [...document.querySelectorAll<HTMLLinkElement>('link[rel="stylesheet"]')];

/** Of one that failed, some browsers give no sheet, others one that can’t be read. */
function hasRules({ sheet }: HTMLLinkElement): boolean {
  try {
    return sheet !== null && sheet.cssRules.length > 0;
  } catch {
    return false;
  }
}

function fetchStyle(href: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const link = document.createElement('link');
    link.rel = 'stylesheet';
    link.href = href;
    link.addEventListener('load', () => resolve());
    link.addEventListener('error', () => {
      link.remove();
      reject(new Error(`no stylesheet at ${href}`));
    });
    document.head.append(link);
  });
}
