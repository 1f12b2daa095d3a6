/** The measuring command's answer on paper: a few lines for people. */
import { drumAnswer, drumName } from '../advice/words/drumWords';
import { HITS_NEEDED } from '../reading/limits';
import { bandText, capital, dbText, hzText } from '../text/rounded';
import type { MeasuredBand } from './measure';
import type { CommandResult } from './run';

const signed = (value: number, digits: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(digits)}`;
const orDash = (value: number | null, show: (value: number) => string): string => (value === null ? '–' : show(value));
/** a notch below this is a null at 0 Hz: true of every inverted sum, and nothing to hear */
const LOWEST_NOTCH_HZ = 1;
const NAME_WIDTH = 12;
const TEXT_WIDTH = 100;

/** Lines without a line feed at the end. @param temperatureC of the air, for distances */
export function report(result: CommandResult, temperatureC = 20): string {
  const lines: [name: string, text: string][] = [
    ['file', fileText(result)],
    ...(result.offsetSamples === 0
      ? []
      : [['offset', `${signed(result.offsetSamples, 2)} samples taken out of B’s delay`] as [string, string]]),
    ['advice', result.advice.text],
    ...result.advice.notes.map((note): [string, string] => ['note', note]),
    ...result.advice.cautions.map((caution): [string, string] => ['mind', caution]),
    ['state', `${result.state}: ${result.reason}`],
    ['hits', `${result.hits} heard, ${result.hitsUsed} used${agreementText(result)}`],
    ...drumLines(result, temperatureC),
  ];
  if (result.delaySamples !== null && result.delayMs !== null && result.pathCm !== null) {
    const later = result.delaySamples < 0 ? 'B hears the drum first' : 'B hears the drum later';
    lines.push(
      ['polarity', `${result.polarity ?? '–'} (first push, B against A)`],
      [
        'delay',
        `${signed(result.delaySamples, 2)} samples · ${signed(result.delayMs, 3)} ms · ${signed(result.pathCm, 1)} cm (${later})`,
      ],
    );
    const notches = result.notchesHz.filter((notch) => notch >= LOWEST_NOTCH_HZ);
    if (notches.length > 0) lines.push(['notches', `${notches.map(hzText).join(' · ')} (of A+B as it stands)`]);
  }
  lines.push(
    ['own octave', fullerText(result)],
    ['correlation', `${orDash(result.correlation, (r) => signed(r, 2))} broadband`],
  );
  const table = result.bands.map(rowText);
  return [...lines.flatMap(([name, text]) => entry(name, text)), '', BAND_HEAD, ...table].join('\n');
}

/** A line per drum where several were heard. */
function drumLines(result: CommandResult, temperatureC: number): [string, string][] {
  if (result.drums.length < 2) return [];
  return result.drums.map((drum) => {
    const read = drum.id === result.drum ? ', read here (the loudest in A)' : '';
    const said = drumAnswer(drum, { sampleRate: result.sampleRate, hitsNeeded: HITS_NEEDED }, temperatureC, true);
    return [
      'drum',
      `${capital(drumName(drum, result))}${read}: ${said} · ${drum.hitsUsed} used of its ${drum.hits} heard`,
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
  const cut = result.truncated ? ' · cut short, read as far as it goes' : '';
  return `${result.file} · ${from} · ${result.durationSeconds.toFixed(1)} s at ${result.sampleRate} Hz${cut}`;
}

function agreementText({ agreement, spreadSamples, uncertaintySamples }: CommandResult): string {
  return [
    orDash(agreement, (share) => ` · ${Math.round(share * 100)} % agree`),
    orDash(spreadSamples, (samples) => ` · repeats within ±${samples.toFixed(2)} samples`),
    orDash(uncertaintySamples, (samples) => ` · uncertainty ±${samples.toFixed(2)} samples (90 %)`),
  ]
    .filter((text) => text !== '–')
    .join('');
}

function fullerText({ fuller, fullerDb, fullerLowHz, fullerHighHz }: CommandResult): string {
  if (fuller === null || fullerLowHz === null || fullerHighHz === null) return '–';
  const band = `in ${bandText(fullerLowHz, fullerHighHz)}, at equal levels`;
  if (fuller === 'either') return `either polarity is as full (within 1 dB) ${band}`;
  return `fuller ${fuller === 'inverted' ? 'with B inverted' : 'as it is'}, by ${orDash(fullerDb, dbText)} ${band}`;
}

const BAND_HEAD = 'band              correlation  coherence     A+B     A−B  A+B as recorded, dB';

function rowText(band: MeasuredBand): string {
  const db = (value: number | null): string => orDash(value, (level) => signed(level, 1));
  return [
    `${band.name} ${bandText(band.lowHz, band.highHz)}`.padEnd(22),
    orDash(band.correlation, (r) => signed(r, 2)).padStart(7),
    orDash(band.coherence, (c) => c.toFixed(2)).padStart(11),
    db(band.sumDb).padStart(8),
    db(band.sumInvertedDb).padStart(8),
    db(band.sumAsRecordedDb).padStart(8),
  ].join('');
}
