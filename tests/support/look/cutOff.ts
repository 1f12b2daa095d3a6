/** Text that doesn't fit into its place. */
import type { Page } from 'playwright-core';

/** Elements whose own text is cut off; an ellipsis with a title isn't, but in a field or a menu nobody finds one. */
export function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const pen = document.createElement('canvas').getContext('2d') as CanvasRenderingContext2D;
    const put = (box: Element, text: string, wanted: number, has: number): void => {
      const name = box.id || box.className.toString() || box.tagName;
      found.push(`${name} "${text.trim().slice(0, 30)}": ${Math.ceil(wanted)} in ${Math.floor(has)}`);
    };
    for (const box of document.querySelectorAll<HTMLElement>('body *')) {
      if (box.closest('.unseen, [inert], svg, option') || !box.checkVisibility({ visibilityProperty: true })) continue;
      const style = getComputedStyle(box);
      const inner = box.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight);
      if (box instanceof HTMLTextAreaElement) {
        if (box.scrollHeight > box.clientHeight + 1) put(box, box.value, box.scrollHeight, box.clientHeight);
      } else if (box instanceof HTMLSelectElement) {
        pen.font = style.font;
        const text = box.selectedOptions[0]?.textContent ?? '';
        // beside the text there is the menu's arrow, as wide as the type is high
        const has = inner - Number.parseFloat(style.fontSize);
        const { width } = pen.measureText(text);
        if (width > has) put(box, text, width, has);
      } else if (box instanceof HTMLInputElement) {
        if (box.type !== 'text') continue;
        pen.font = style.font;
        const text = box.value || box.placeholder;
        const { width } = pen.measureText(text);
        if (width > inner + 0.5) put(box, text, width, inner);
      } else {
        const own = [...box.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim());
        const inside = box.matches('.canvas') ? '' : (box.textContent ?? '');
        if (inside.trim() === '' || style.overflowX === 'visible') continue;
        const dotted = style.textOverflow === 'ellipsis' && box.title !== '';
        const scrolls = style.overflowY === 'auto' || style.overflowY === 'scroll';
        if (own && !dotted && box.scrollWidth > box.clientWidth + 1) put(box, inside, box.scrollWidth, box.clientWidth);
        if (!scrolls && box.scrollHeight > box.clientHeight + 2) put(box, inside, box.scrollHeight, box.clientHeight);
      }
    }
    return found;
  });
}
