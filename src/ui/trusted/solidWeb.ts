/**
 * What compiled JSX imports (`vite.config.ts` names it): the screen library as it is, but for `template`, whose HTML is
 * written by the compiler and goes through the page’s policy. Text of a person or a file never comes here: it is put in
 * as text.
 */
import { untrack } from 'solid-js';
import { policy } from './policy';

export * from 'solid-js/web';

/** As the library’s own (solid-js 1.9, `web/dist/web.js`). @param html of the compiler */
export function template(html: string, isImportNode?: boolean, isSVG?: boolean): () => Node {
  let node: Node | null = null;
  const create = (): Node => {
    const holder = document.createElement('template');
    holder.innerHTML = policy.createHTML(html);
    const first = isSVG ? holder.content.firstChild?.firstChild : holder.content.firstChild;
    if (!first) throw new Error('an empty template');
    return first;
  };
  const make = (): Node => {
    node ??= create();
    return node;
  };
  return isImportNode ? () => untrack(() => document.importNode(make(), true)) : () => make().cloneNode(true);
}
