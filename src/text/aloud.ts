/** A text as a voice is to say it: numbers as a person at a stand says them, units in words. */

const SMALL = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

const UNITS: Readonly<Record<string, string>> = { cm: 'centimetre', ms: 'millisecond', mm: 'millimetre' };

/** "two and a half centimetres", "half a centimetre", "one centimetre", "12 centimetres", "0.42 milliseconds" */
function lengthAloud(number: string, unit: string): string {
  const word = UNITS[unit] ?? unit;
  const value = Number(number);
  const whole = Math.floor(value);
  const named = SMALL[whole];
  if (named === undefined || (value !== whole && value !== whole + 0.5)) return `${number} ${word}s`;
  if (value === whole) return `${named} ${word}${whole === 1 ? '' : 's'}`;
  return whole === 0 ? `half a ${word}` : `${named} and a half ${word}s`;
}

/** "Snare bottom: 2.5 cm closer" → "Snare bottom: two and a half centimetres closer" */
export function aloudText(text: string): string {
  return text
    .replace(/(\d+(?:\.\d+)?)[ \u00a0](cm|ms|mm)(?![\p{L}\d])/gu, (_, number: string, unit: string) =>
      lengthAloud(number, unit),
    )
    .replace(/[“”]/g, '')
    .replace(/&/g, 'and');
}
