/** The measuring command's answer on paper: a few lines for people. */
import type { MeasuredBand } from './measure';
import type { CommandResult } from './run';

const signed = (value: number, digits: number): string => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(digits)}`;
const orDash = (value: number | null, show: (value: number) => string): string => (value === null ? '–' : show(value));
const hz = (value: number): string => (value >= 1000 ? `${(value / 1000).toFixed(1)} kHz` : `${value.toFixed(0)} Hz`);

/** Lines without a line feed at the end. */
export function report(result: CommandResult): string {
  const lines: [name: string, text: string][] = [
    ['file', fileText(result)],
    ['advice', result.advice.text],
    ['state', `${result.state}: ${result.reason}`],
    ['hits', `${result.hits} heard, ${result.hitsUsed} used${agreementText(result)}`],
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
    if (result.notchesHz.length > 0)
      lines.push(['notches', `${result.notchesHz.map(hz).join(' · ')} (of A+B as it stands)`]);
  }
  lines.push(
    ['low end', fullerText(result)],
    ['correlation', `${orDash(result.correlation, (r) => signed(r, 2))} broadband`],
  );
  const table = result.bands.map(bandText);
  return [...lines.map(([name, text]) => `${name.padEnd(12)}${text}`), '', BAND_HEAD, ...table].join('\n');
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
  const band = `in ${hz(fullerLowHz)}–${hz(fullerHighHz)}, at equal levels`;
  const by = orDash(fullerDb, (db) => `${Math.abs(db).toFixed(1)} dB`);
  if (fuller === 'either') return `either polarity is as full (within ${by}) ${band}`;
  return `fuller ${fuller === 'inverted' ? 'with B inverted' : 'as it is'}, by ${by} ${band}`;
}

const BAND_HEAD = 'band              correlation  coherence     A+B     A−B  A+B as recorded, dB';

function bandText(band: MeasuredBand): string {
  const db = (value: number | null): string => orDash(value, (level) => signed(level, 1));
  return [
    `${band.name} ${hz(band.lowHz)}–${hz(band.highHz)}`.padEnd(22),
    orDash(band.correlation, (r) => signed(r, 2)).padStart(7),
    orDash(band.coherence, (c) => c.toFixed(2)).padStart(11),
    db(band.sumDb).padStart(8),
    db(band.sumInvertedDb).padStart(8),
    db(band.sumAsRecordedDb).padStart(8),
  ].join('');
}
