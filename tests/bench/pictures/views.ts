/** Every view of the page that has a picture of its own, and how one comes to it from a fresh page. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import type { KitSheet } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { type Answer, answerWhen, playScene, press } from '../../support/page/screen';
import { exampleKit, fourteenMics, kitFile } from '../../support/readings/fourteenMics';

export interface View {
  name: string;
  /** from the first page, as it was loaded; the view stands still when this is done */
  open(page: Page): Promise<void>;
  /** it has a printed page */
  paper?: boolean;
}

interface Scene {
  id: string;
  polarity: string | null;
}
const { scenes } = JSON.parse(readFileSync(new URL('../../../samples/kit/kit.json', import.meta.url), 'utf8')) as {
  scenes: Scene[];
};
/** enough that nothing is said about too few; where nothing can be told, time enough for as many */
const ENOUGH_HITS = 8;
const ENOUGH_SECONDS = 10;

async function readScene(page: Page, { id, polarity }: Scene): Promise<void> {
  await playScene(page, id);
  const done = (a: Answer): boolean =>
    polarity === null ? (a.readingSeconds ?? 0) >= ENOUGH_SECONDS : a.state === 'measured' && a.hitsUsed >= ENOUGH_HITS;
  await answerWhen(page, `${id}: its answer`, done);
  // a hold keeps the picture still
  if ((await page.locator('[data-command="hold"]:visible').count()) > 0) await press(page, 'hold');
}

const snare = scenes.find(({ id }) => id === 'snare-top-bottom') as Scene;

/** Two microphones, nothing measured yet. */
const twoMics = (): KitSheet =>
  sheetFrom(STARTS.find(({ id }) => id === 'two') as (typeof STARTS)[number], 'two', 'Two mics');

async function openSheet(page: Page, sheet: KitSheet): Promise<void> {
  await press(page, 'open-sheet');
  await page.locator('#kit-file').setInputFiles(kitFile(sheet));
  await page.locator('.pair-row').first().waitFor({ state: 'attached' });
}

export const VIEWS: readonly View[] = [
  { name: 'first page', open: async (page) => page.locator('[data-command="play-demo"]:enabled').waitFor() },
  ...scenes.map((scene): View => ({ name: `meter ${scene.id}`, open: (page) => readScene(page, scene) })),
  {
    name: 'why',
    async open(page) {
      await readScene(page, snare);
      await press(page, 'why');
      await page.locator('.why').first().waitFor();
    },
  },
  {
    name: 'try it',
    async open(page) {
      await readScene(page, snare);
      await press(page, 'try');
      await page.locator('.try-curve').first().waitFor();
      await page.locator('[data-command="try-option"]').first().click();
    },
  },
  {
    name: 'big display',
    async open(page) {
      await readScene(page, snare);
      await press(page, 'call-out');
      await page.locator('.call-out .call-text').waitFor();
    },
  },
  {
    name: 'help',
    async open(page) {
      await press(page, 'help');
      await page.locator('.help').first().waitFor();
    },
  },
  {
    name: 'connect',
    async open(page) {
      await press(page, 'connect');
      await page.locator('main.connect').waitFor();
    },
  },
  {
    name: 'kit sheets',
    async open(page) {
      await press(page, 'open-sheet');
      await page.locator('[data-start]').first().waitFor();
    },
  },
  { name: 'kit', open: (page) => openSheet(page, exampleKit()) },
  { name: 'kit of fourteen', open: (page) => openSheet(page, fourteenMics()) },
  { name: 'kit of two', open: (page) => openSheet(page, twoMics()) },
  ...[
    { name: 'hand-over', kit: exampleKit },
    { name: 'hand-over of fourteen', kit: fourteenMics },
  ].map(
    ({ name, kit }): View => ({
      name,
      paper: true,
      async open(page) {
        await openSheet(page, kit());
        await press(page, 'hand-over');
        await page.locator('[data-command="print"]').waitFor();
      },
    }),
  ),
  {
    name: 'voice and tone',
    async open(page) {
      await readScene(page, snare);
      await press(page, 'call-out');
      await press(page, 'voice-and-tone');
      await page.locator('.sound-panel').waitFor();
    },
  },
  {
    name: 'round',
    async open(page) {
      await press(page, 'open-sheet');
      await page.locator('[data-start="fourteen"]').click();
      await press(page, 'begin-round');
      await press(page, 'play-demo');
      await answerWhen(page, 'an answer in the round', (a) => a.hitsUsed >= ENOUGH_HITS);
      await press(page, 'hold');
    },
  },
];
