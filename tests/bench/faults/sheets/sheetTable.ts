/** Names that a spreadsheet would run, in the table that the page hands over. */
import type { Page } from 'playwright-core';
import { KIT_TEXT } from '../kept';
import type { SheetFault } from './sheetTrial';

const NAMES: readonly (readonly [what: string, name: string])[] = [
  ['a formula', '=1+2'],
  ['a plus', '+1+cmd|x'],
  ['a minus', '-2+3+cmd|x'],
  ['an at sign', '@SUM(1)'],
  ['a formula after spaces', '   =1+2'],
  ['a formula after a tab', '\t=1+2'],
  ['a formula after a line’s end', 'top\n=1+2'],
  ['a full-width sign', '＝1+2'],
  ['a formula after a quote and a semicolon', '=1+2";=1+2'],
  ['a formula after a zero-width space', '\u200b=1+2'],
];
const SIGN = /^[\s\p{Cc}\p{Cf}]*["']?[=+\-@＝＋－＠]/u;
const NUMBER = /^[+-−]?\d+([.,]\d+)?$/;
/** made text by an apostrophe */
const DEFUSED = /^[\s\p{Cc}\p{Cf}]*'/u;

/** All that any spreadsheet could take for a cell, whatever separates for it. */
const cells = (csv: string): string[] => csv.split(/[,;|\t\r\n\v\f\u0085\u2028\u2029"]/u);

async function handedOver(page: Page): Promise<string> {
  await page.locator('[data-command="hand-over"]:visible').first().click();
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.locator('[data-command="export-csv"]:visible').first().click(),
  ]);
  let text = '';
  for await (const part of await file.createReadStream()) text += part;
  await page.locator('[data-command="kit"]:visible').first().click();
  await page.locator('#kit-name').waitFor();
  return text;
}

export const SHEET_TABLE: readonly SheetFault[] = NAMES.map(([what, name]) => ({
  sub: 'spreadsheet',
  name: `${what} as a mic’s name`,
  how: 'opened from a file, handed over as CSV',
  told: 'nothing',
  recovers: 'it goes on',
  async strike({ page }) {
    const sheet = JSON.parse(KIT_TEXT) as { kit: { id: string; name: string; microphones: { label: string }[] } };
    sheet.kit.id = 'formulas';
    for (const microphone of sheet.kit.microphones) microphone.label = name;
    const buffer = Buffer.from(JSON.stringify(sheet));
    await page.locator('#kit-file').setInputFiles({ name: 'kit.json', mimeType: 'application/json', buffer });
    await page.locator('[data-storing="stored"]').waitFor();
    await page.waitForTimeout(300);
    const runs = cells(await handedOver(page)).filter(
      (cell) => SIGN.test(cell) && !DEFUSED.test(cell) && !NUMBER.test(cell.trim()),
    );
    return [...new Set(runs)].slice(0, 3).map((cell) => `a cell that runs: ${JSON.stringify(cell)}`);
  },
}));
