/** The measuring command's answer on paper: a few lines for people. */

import type { MeasuredAlternative, MeasuredBand } from '../advice/measurement';
import { gapOf, pathShownCm } from '../advice/plan/gap';
import type { PairKindId } from '../advice/plan/pairKinds';
import { alternativesShown } from '../advice/plan/shown';
import { actionText } from '../advice/words/actionText';
import { drumAnswer } from '../advice/words/drumWords';
import { HITS_NEEDED } from '../reading/limits';
import { fixedSamples, hitsText } from '../text/count';
import { bandText, hzText } from '../text/frequency';
import { dbText, gainText } from '../text/level';
import { drumName } from '../text/names';
import { fixed, NO_VALUE, orNoValue, percentText, signedColumn } from '../text/number';
import { capital } from '../text/sentence';
import { fixedSeconds } from '../text/time';
import type { CommandResult } from './result';

/** a notch below this is a null at 0 Hz: true of every inverted sum, and nothing to hear */
const LOWEST_NOTCH_HZ = 1;
/** the JSON's codes in words */
const STATE_TEXT: Readonly<Record<CommandResult['state'], string>> = {
  listening: 'too few hits',
  following: 'a mic is being moved',
  measured: 'certain',
  unclear: 'can’t tell',
  'no-signal': 'no signal',
  'same-signal': 'same signal',
  overloaded: 'clipping',
};

/** the page knows the pair from its file’s name, or is told */
const NO_KIND =
  'You didn’t say what the two mics are, so no move is listed: add --kind to get the options that the page has.';

const NAME_WIDTH = 12;
const TEXT_WIDTH = 100;

/** Lines without a line feed at the end. temperatureC: of the air, for distances; gaps: where there is no sound, empty: nowhere; kind: what the two are */
export function report(
  result: CommandResult,
  { temperatureC = 20, gaps = '', kind = 'other' }: { temperatureC?: number; gaps?: string; kind?: PairKindId } = {},
): string {
  const lines: [name: string, text: string][] = [
    ['file', fileText(result)],
    ...(gaps === '' ? [] : [['gap', capital(`${gaps}.`)] as [string, string]]),
    ...(result.offsetSamples === 0
      ? []
      : [
          ['offset', `${signedColumn(result.offsetSamples, 2)} samples of converter offset corrected in B’s delay`] as [
            string,
            string,
          ],
        ]),
    ['advice', result.advice.text],
    ...alternativesShown(result.plan)
      .slice(1)
      .map((one): [string, string] => ['or', alternativeText(one)]),
    ...(kind === 'other' && result.plan.length > 0 ? [['pair', NO_KIND] as [string, string]] : []),
    ...result.advice.notes.map((note): [string, string] => ['note', note]),
    ...result.advice.cautions.map((caution): [string, string] => ['caution', caution]),
    ['state', `${STATE_TEXT[result.state]} · ${result.reason}`],
    ['hits', `${result.hits} heard${usedText(result)}`],
    ...drumLines(result, temperatureC),
  ];
  if (result.delaySamples !== null && result.delayMs !== null && result.pathCm !== null) {
    const later = result.delaySamples < 0 ? 'B hears the drum first' : 'B hears the drum later';
    lines.push(
      ['polarity', `${result.polarity ?? NO_VALUE} (first push, B against A)`],
      [
        'delay',
        `${signedColumn(result.delaySamples, 2)} samples · ${signedColumn(result.delayMs, 3)} ms · ${signedColumn(saidCm(result, temperatureC) ?? result.pathCm, 1)} cm (${later})`,
      ],
    );
    const notches = result.notchesHz.filter((notch) => notch >= LOWEST_NOTCH_HZ);
    if (notches.length > 0) lines.push(['notches', `${notches.map(hzText).join(' · ')} (of A+B as it is)`]);
  }
  lines.push(
    ['low octave', fullerText(result)],
    ['correlation', `${orNoValue(result.correlation, (r) => signedColumn(r, 2))} broadband`],
  );
  const table = result.bands.map(rowText);
  return [...lines.flatMap(([name, text]) => entry(name, text)), '', BAND_HEAD, ...table].join('\n');
}

/** The path, rounded as in the advice and on the page. */
function saidCm(result: CommandResult, temperatureC: number): number | null {
  const gap = gapOf(result, result.sampleRate, temperatureC);
  return gap && pathShownCm(gap, result.advice.moveCm);
}

/** "Invert B: +2 dB in the drum’s low octave, −1.5 dB overall", of what isn't recommended. */
function alternativeText(one: MeasuredAlternative): string {
  const gain = (db: number | null): string => orNoValue(db, gainText);
  return `${actionText(one, {})}: ${gain(one.lowDb)} in the drum’s low octave and ${gain(one.allDb)} overall`;
}

/** A line per drum where several were heard. */
function drumLines(result: CommandResult, temperatureC: number): [string, string][] {
  if (result.drums.length < 2) return [];
  return result.drums.map((drum) => {
    const read = drum.id === result.drum ? ', measured here (the meter’s pick)' : '';
    const stated = { ...drum, reason: drum.reasonCode };
    const said = drumAnswer(stated, { sampleRate: result.sampleRate, hitsNeeded: HITS_NEEDED }, temperatureC, true);
    return [
      'drum',
      `${capital(drumName(drum, result, drum.name))}${read}: ${said} · ${drum.hitsUsed} of ${hitsText(drum.hits)} used`,
    ];
  });
}

/** A name and its text, on as many lines as it takes. */
function entry(name: string, text: string): string[] {
  const rows = [''];
  for (const word of text.split(' ')) {
    const row = rows[rows.length - 1] as string;
    if (row === '') rows[rows.length - 1] = word;
    else if (row.length + 1 + word.length > TEXT_WIDTH) rows.push(word);
    else rows[rows.length - 1] = `${row} ${word}`;
  }
  return rows.map((row, i) => `${(i === 0 ? name : '').padEnd(NAME_WIDTH)}${row}`);
}

function fileText(result: CommandResult): string {
  const from = result.bFile === null ? `channels ${result.a} and ${result.b}` : `B from ${result.bFile}`;
  const cut = result.truncated ? ' · cut short, measured as far as it goes' : '';
  return `${result.file} · ${from} · ${fixedSeconds(result.durationSeconds, 1)} at ${result.sampleRate} Hz${cut}`;
}

/** Of too few hits nothing is used yet: the reason counts those that can be. */
const usedText = (result: CommandResult): string =>
  result.state === 'listening' && result.hitsUsed === 0 ? '' : `, ${result.hitsUsed} used${agreementText(result)}`;

function agreementText({ agreement, spreadSamples, uncertaintySamples }: CommandResult): string {
  return [
    orNoValue(agreement, (share) => ` · ${percentText(share)} agree`),
    orNoValue(spreadSamples, (samples) => ` · hit-to-hit spread ±${fixedSamples(samples, 2)}`),
    orNoValue(uncertaintySamples, (samples) => ` · accurate to ±${fixedSamples(samples, 2)} (90 %)`),
  ]
    .filter((text) => text !== NO_VALUE)
    .join('');
}

function fullerText({ fuller, fullerDb, fullerLowHz, fullerHighHz }: CommandResult): string {
  if (fuller === null || fullerLowHz === null || fullerHighHz === null) return NO_VALUE;
  const band = `in ${bandText(fullerLowHz, fullerHighHz)}, at equal levels`;
  if (fuller === 'either') return `no real difference between the polarities (within 1 dB) ${band}`;
  return `fuller ${fuller === 'inverted' ? 'with B inverted' : 'as it is'}, by ${orNoValue(fullerDb, dbText)} ${band}`;
}

const BAND_HEAD = [
  'Sums in dB over the power sum of A and B (what two unrelated signals would make): at equal level, then as recorded.',
  'band              correlation  coherence     A+B     A−B  A+B as recorded',
].join('\n');

function rowText(band: MeasuredBand): string {
  const db = (value: number | null): string => orNoValue(value, (level) => signedColumn(level, 1));
  return [
    `${band.name} ${bandText(band.lowHz, band.highHz)}`.padEnd(22),
    orNoValue(band.correlation, (r) => signedColumn(r, 2)).padStart(7),
    orNoValue(band.coherence, (c) => fixed(c, 2)).padStart(11),
    db(band.sumDb).padStart(8),
    db(band.sumInvertedDb).padStart(8),
    db(band.sumAsRecordedDb).padStart(8),
  ].join('');
}
