/** What makes words a sentence. */

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

export function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}

/** "a", "a and b", "a, b and c" */
export function listText(items: readonly string[]): string {
  return items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}

/** Splits a text into what may break (even places) and numbers with their units (odd places): "±4 mm", "(90 %)", "2.5 cm". */
export function numberRuns(text: string): string[] {
  return text.split(
    /(\(?[±+−-]?\d[\d.,]*[ \u00a0](?:%|mm|cm|ms|dB|dBFS|Hz|kHz|°C|m|s|µs|samples?|(?:centi|milli)?metres?|milliseconds?)(?![\p{L}\d])\)?)/u,
  );
}
