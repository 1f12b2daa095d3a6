/** Lengths as the screen says them. */
const MINUS = '−';

/** A number with a fixed count of decimals, no "−0". */
export function fixed(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  const zero = Number(text) === 0;
  return value < 0 && !zero ? MINUS + text : text;
}

/** A length: below 1 cm in whole mm, from 1 m on in metres. */
export function lengthText(cm: number): string {
  const size = Math.abs(cm);
  if (size < 0.95) return `${fixed(size * 10, 0)} mm`;
  if (size < 99.95) return `${fixed(size, 1)} cm`;
  return `${fixed(size / 100, 2)} m`;
}

/** Where B is as the drum hears it. */
export function pathText(pathCm: number | null): string {
  if (pathCm === null) return '–';
  if (Math.abs(pathCm) < 0.05) return 'B level with A';
  return `B ${lengthText(pathCm)} ${pathCm > 0 ? 'farther' : 'closer'}`;
}
