/** Strings that nobody reads: each kind of them, with its reason. */
import { type JsxAttribute, type JsxOpeningElement, type Node, SyntaxKind } from 'typescript/unstable/ast';
import {
  isArrowFunction,
  isBinaryExpression,
  isCallExpression,
  isCaseClause,
  isElementAccessExpression,
  isExportDeclaration,
  isImportDeclaration,
  isJsxAttribute,
  isJsxElement,
  isPropertyAccessExpression,
  isPropertyAssignment,
  isPropertyDeclaration,
  isSourceFile,
} from 'typescript/unstable/ast/is';

/** Attributes of HTML that are read, on the screen or out loud; every other one is wiring. */
const READ = new Set(['alt', 'aria-description', 'aria-label', 'aria-valuetext', 'placeholder', 'title']);

/** Attributes of the page's own components that are wiring: names for styles, commands and choices. */
const WIRING = /^(class|command|each|group|id|of|state|when|data-.*)$/;

/** What takes strings that nobody reads: selectors, events, CSS. */
const CALLED = /^(addEventListener|colour|createEventListener|getElementById|listen|matchMedia|querySelector)$/;

/** Files in which a lone word is a code. */
const CODES_IN: Readonly<Record<string, string>> = {
  'src/advice/advise.ts': 'names of actions',
  'src/advice/plan/': 'codes and numbers, not a word',
  'src/state/callOut/messages.ts': 'names between windows',
  'src/state/settings/': 'keys and values in the browser’s storage',
  'src/state/offset/offsetMemory.ts': 'a key in the browser’s storage',
  'src/state/take/toldMemory.ts': 'keys and values in the browser’s storage',
  'src/state/shelf/': 'keys in the browser’s storage',
  'src/state/pair/pairReading.ts': 'names of pages',
  'src/state/round/demoPair.ts': 'the name of a source',
  'src/state/round/round.ts': 'the name of a setting',
  'src/state/teaching/': 'what became of a step',
  'src/teaching/bench/': 'codes and numbers, not a word',
  'src/teaching/lessons/': 'names of steps',
  'src/ui/page/': 'names of events, pages and parts',
  'src/ui/plots/paint/ink.ts': 'CSS',
  'src/ui/print/download.ts': 'a file’s name where the kit has none',
  'src/ui/round/roundLine.ts': 'names of pages',
  'src/ui/callOut/createCallOutView.ts': 'the name of a flag',
  'src/ui/shared/Flags.tsx': 'names of flags',
  'src/ui/shared/focusOnMove.ts': 'ways to move',
  'src/ui/shared/keys.ts': 'names of keys and of elements',
  'src/main.tsx': 'an id',
};

/** Files whose strings nobody reads. */
const FILES: Readonly<Record<string, string>> = {
  'src/files/writeWav.ts': 'used by the generator and the tests only',
  'src/ui/print/sumPicture.ts': 'paths of SVG',
  'src/ui/trusted/policy.ts': 'a policy’s name, and a fault of the program',
  'src/ui/trusted/solidWeb.ts': 'a fault of the compiler',
  'src/ui/why/wavePath.ts': 'paths of SVG',
};

/** Single strings that are left out, by the file they stand in. */
const STRINGS: Readonly<Record<string, { reason: string; texts: readonly string[] }>> = {
  'src/files/wavChunks.ts': {
    reason: 'marks in files',
    texts: 'RIFF RIFX RF64 BW64 WAVE fmt data ds64 bext fLaC OggS ID3 AIF caff ftyp riff'.split(' '),
  },
  'src/files/flac/streamInfo.ts': { reason: 'marks in files', texts: 'fLaC ID3 riff bext TIME_REFERENCE='.split(' ') },
  'src/advice/plan/holding.ts': {
    reason: 'keys to compare, never shown',
    texts: ['no longer good', 'not chosen', 'no longer timed'],
  },
  'src/audio/scenes.ts': { reason: 'a file’s name', texts: ['kit.json'] },
  'src/text/clock.ts': { reason: 'a language', texts: ['en-GB'] },
  'src/ui/byEar/SeenSums.tsx': {
    reason: 'a path of SVG, and values of a field',
    texts: ['{M|L}{…} {…}', 'inverted', 'same'],
  },
  'src/teaching/byEar/round.ts': { reason: 'values of a field', texts: ['inverted', 'same'] },
  'src/ui/bench/drawn/ArrivalPicture.tsx': { reason: 'a path of SVG', texts: ['{M|L}{…} {…}'] },
  'src/ui/bench/BenchControls.tsx': {
    reason: 'names of controls and values of lists',
    texts: ['-a', 'temperature', 'distance', 'snare', 'kick', 'kit'],
  },
  'src/ui/bench/drawn/CombPicture.tsx': { reason: 'a path of SVG', texts: ['{M|L}{…} {…}'] },
  'src/ui/callOut/CallOutFace.tsx': { reason: 'classes', texts: ['huge', 'large', 'mid', 'small'] },
  'src/ui/callOut/SecondScreen.tsx': {
    reason: 'what kind of window is opened',
    texts: ['_blank', 'popup,noopener,width=1100,height=700'],
  },
  'src/ui/kit/KitMicrophones.tsx': { reason: 'a selector', texts: ['.microphones tr:last-child .cell'] },
  'src/ui/kit/openKit.tsx': { reason: 'a kind of file', texts: ['application/json'] },
  'src/ui/parts/withStyles.ts': {
    reason: 'a selector, an attribute, and an error for programmers',
    texts: ['link[rel="stylesheet"]', 'stylesheet', 'no stylesheet at {…}'],
  },
  'src/ui/plots/paint/ink.ts': { reason: 'a font', texts: ['{700 |}{…}px {…}'] },
  'src/ui/plots/painters.ts': { reason: 'a font', texts: ['700 {…}px {…}'] },
  'src/ui/plots/plots.ts': { reason: 'a font', texts: ['{…}px system-ui, sans-serif'] },
  'src/ui/print/HandOverPage.tsx': { reason: 'kinds of files', texts: ['text/csv', 'application/json'] },
  'src/ui/print/download.ts': { reason: 'a kind of file', texts: ['{…};charset=utf-8'] },
  'src/ui/meter/Numbers.tsx': { reason: 'an id', texts: ['label-{…}'] },
  'src/ui/page/createLights.ts': { reason: 'a query of CSS', texts: ['(prefers-color-scheme: dark)'] },
  'src/ui/shared/appScope.ts': { reason: 'an error for programmers', texts: ['useApp must run inside AppScope'] },
  'src/ui/kit/useKit.ts': {
    reason: 'an error for programmers',
    texts: ['useKit must run once the kit’s part is here'],
  },
  'src/cli/measure.ts': {
    reason: 'an error for programmers',
    texts: ['b must have length {…} but had length {…}'],
  },
  'src/ui/take/trackChoices.ts': { reason: 'values of a list', texts: ['far {…} {…}', 'mic {…}', 'drum {…}'] },
  'src/ui/take/TakeTracks.tsx': { reason: 'a language', texts: ['en'] },
  'src/state/take/take.ts': { reason: 'a language', texts: ['en'] },
  'src/cli/takes.ts': { reason: 'options, said in a sentence elsewhere', texts: ['--a', '--b'] },
};

const IMPORTS = [isImportDeclaration, isExportDeclaration];
export const isImport = (node: Node): boolean => IMPORTS.some((is) => is(node));

export const isFileLeftOut = (path: string): boolean => path in FILES;

/** a code, an address of a part, a path of SVG */
const SHAPES = [/^[a-z\d]+(-([a-z\d]+|\{…\})?)+$/, /^\.{1,2}\//, /^M\d* ?\{…\} /];

/** By its shape, or by its name in this file. */
export function isLeftOut(path: string, text: string): boolean {
  if (SHAPES.some((shape) => shape.test(text))) return true;
  if (STRINGS[path]?.texts.includes(text)) return true;
  const lone = /^[\w.#{}…-]+$/.test(text) && text.toLowerCase()[0] === text[0];
  return lone && Object.keys(CODES_IN).some((room) => path.startsWith(room));
}

/** By its place in the code. */
export function isWiring(node: Node): boolean {
  const { parent } = node;
  if (isBinaryExpression(parent)) {
    // this.name = 'SomeError'
    if (parent.left.getText() === 'this.name') return true;
    if (COMPARED.has(parent.operatorToken.kind)) return true;
  }
  if (isCaseClause(parent) || isElementAccessExpression(parent)) return true;
  if (isPropertyAssignment(parent) && parent.name === node) return true;
  if (isPropertyDeclaration(parent) && parent.name.getText() === 'name') return true;
  if (isCallExpression(parent) && parent.expression !== node) {
    const called = isPropertyAccessExpression(parent.expression) ? parent.expression.name : parent.expression;
    if (CALLED.test(called.getText())) return true;
  }
  const attribute = attributeOf(node);
  if (attribute === null) return false;
  const name = attribute.name.getText();
  const ofComponent = /^[A-Z]/.test((attribute.parent.parent as JsxOpeningElement).tagName.getText());
  return ofComponent ? WIRING.test(name) : !READ.has(name);
}
const COMPARED = new Set([
  SyntaxKind.EqualsEqualsEqualsToken,
  SyntaxKind.ExclamationEqualsEqualsToken,
  SyntaxKind.InKeyword,
]);

/** The attribute whose value the node is a part of; a function or an element in an attribute stands for itself. */
function attributeOf(node: Node): JsxAttribute | null {
  let up = node.parent;
  while (!isJsxAttribute(up)) {
    if (isArrowFunction(up) || isJsxElement(up) || isSourceFile(up)) return null;
    up = up.parent;
  }
  return up;
}
