/**
 * What of a source file a person can read: text and attributes of JSX, and every string that stands where any string may stand.
 * A string whose place allows certain strings only (a state, an event's name) is a code: the checker says which.
 */
import type { Node, SourceFile } from 'typescript/unstable/ast';
import { SyntaxKind } from 'typescript/unstable/ast';
import {
  isBinaryExpression,
  isConditionalExpression,
  isJsxElement,
  isJsxExpression,
  isJsxFragment,
  isJsxText,
  isNoSubstitutionTemplateLiteral,
  isParenthesizedExpression,
  isStringLiteral,
  isTemplateExpression,
  isTypeNode,
} from 'typescript/unstable/ast/is';
import { type Checker, type Type, TypeFlags } from 'typescript/unstable/sync';
import { isFileLeftOut, isImport, isLeftOut, isWiring } from './leftOut';

/** what stands for a part that is put in while the program runs */
const PUT_IN = '{…}';

/** elements that stand within a sentence */
const WITHIN = new Set(['a', 'b', 'code', 'em', 'i', 'kbd', 'span', 'strong']);

/**
 * @param path from the project's folder on
 * @returns each sentence or fragment of the file once, in the order of the code
 */
export function sentencesOf(path: string, file: SourceFile, checker: Checker): string[] {
  if (isFileLeftOut(path)) return [];
  const found: string[] = [];
  const said = new Set<Node>();
  const add = (text: string): void => {
    const line = text.replace(/\s+/g, ' ').trim();
    if (isReadable(line) && !isLeftOut(path, line) && !found.includes(line)) found.push(line);
  };
  const visit = (node: Node): void => {
    if (isTypeNode(node) || isImport(node)) return;
    if (isJsxElement(node) || isJsxFragment(node)) {
      if (!said.has(node) && node.children.some((child) => isJsxText(child) && /\S/.test(child.text)))
        add(childrenText(node.children, said));
    } else if (isText(node) && !said.has(node) && !isWiring(node) && !isOneOfSome(checker.getContextualType(node))) {
      add(textOf(node, said));
    }
    node.forEachChild((child) => visit(child));
  };
  visit(file);
  return found;
}

const isText = (node: Node) =>
  isStringLiteral(node) || isNoSubstitutionTemplateLiteral(node) || isTemplateExpression(node);

/** A letter beside what is put in, or two: single letters are keys, and the names of the channels. */
function isReadable(line: string): boolean {
  return /\p{L}/u.test(line.replaceAll(PUT_IN, '')) && !/^\p{L}$/u.test(line);
}

/** The type allows certain strings only. */
function isOneOfSome(type: Type | undefined): boolean {
  if (!type) return false;
  if (type.isUnionType()) {
    const parts = type.getTypes();
    return parts.some(isOneOfSome) && !parts.some((part) => (part.flags & TypeFlags.String) !== 0);
  }
  return (type.flags & (TypeFlags.StringLiteral | TypeFlags.TemplateLiteral | TypeFlags.Index)) !== 0;
}

/** The text of an expression; what was taken into it is marked as said. */
function textOf(node: Node, said: Set<Node>): string {
  said.add(node);
  if (isStringLiteral(node) || isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (isParenthesizedExpression(node)) return textOf(node.expression, said);
  if (isTemplateExpression(node)) {
    const parts = node.templateSpans.map((span) => partText(span.expression, said) + span.literal.text);
    return node.head.text + parts.join('');
  }
  return PUT_IN;
}

/** Within a sentence: "{hit|hits}" where the code chooses, else what stands for a part. */
function partText(node: Node, said: Set<Node>): string {
  const choices = choicesOf(node);
  if (!choices.some(isText)) return PUT_IN;
  const texts = choices.map((choice) => (isText(choice) ? textOf(choice, said) : '…'));
  return texts.length === 1 ? (texts[0] as string) : `{${texts.join('|')}}`;
}

function choicesOf(node: Node): Node[] {
  if (isParenthesizedExpression(node)) return choicesOf(node.expression);
  if (isConditionalExpression(node)) return [...choicesOf(node.whenTrue), ...choicesOf(node.whenFalse)];
  const either = isBinaryExpression(node) && OR.has(node.operatorToken.kind);
  return either ? [...choicesOf(node.left), ...choicesOf(node.right)] : [node];
}
const OR = new Set([SyntaxKind.BarBarToken, SyntaxKind.QuestionQuestionToken]);

/** The text of an element's children as one line; elements at its ends that are no part of the sentence fall away. */
function childrenText(children: readonly Node[], said: Set<Node>): string {
  const parts = children.map((child) => childText(child, said));
  const isElement = (part: string | null) => part === null || part.trim() === '';
  while (parts.length > 0 && isElement(parts[0] as string | null)) parts.shift();
  while (parts.length > 0 && isElement(parts.at(-1) as string | null)) parts.pop();
  return parts.map((part) => part ?? PUT_IN).join('');
}

/** null: an element of its own */
function childText(child: Node, said: Set<Node>): string | null {
  // JSX drops white space that holds a line break at the ends of a text
  if (isJsxText(child)) return child.text.replace(/^\s*\n\s*|\s*\n\s*$/g, '').replace(/\s+/g, ' ');
  if (isJsxExpression(child)) return child.expression ? partText(child.expression, said) : '';
  if (!isJsxElement(child) || !WITHIN.has(child.openingElement.tagName.getText())) return null;
  if (!child.children.every((inner) => isJsxText(inner) || isJsxExpression(inner))) return null;
  said.add(child);
  return childrenText(child.children, said);
}
