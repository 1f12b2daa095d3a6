/**
 * Text in a cell that no spreadsheet runs. By the rules that OWASP publishes ("CSV Injection"): no cell may begin with
 * = + - @, a tab, a carriage return or a line feed, nor may one that a separator or a quote within the text would begin for a
 * program that separates by something else. What would is made text by an apostrophe. The full-width signs count as the others:
 * some spreadsheets take them for those. So do signs after spaces, and after characters that nobody sees.
 */

/** signs that begin a formula */
const SIGNS = '=+\\-@＝＋－＠';
/** what may stand before them unseen: white space, control and format characters */
const UNSEEN = '[\\s\\p{Cc}\\p{Cf}]*';
const BEGINS = new RegExp(`^[\\s\\p{Cc}\\p{Cf}"'“”‘’\`]*[${SIGNS}]|^[\\p{Cc}\\u2028\\u2029]`, 'u');
/** a cell's end for one program or another, or a quote; then whatever is passed over; then the sign */
const WITHIN = new RegExp(`([,;|\\t\\r\\n\\v\\f\\u0085\\u2028\\u2029"'\`]${UNSEEN})(?=[${SIGNS}])`, 'gu');

/** The text, with an apostrophe wherever a spreadsheet could take it for a formula; any other text as it is. */
export function notRun(text: string): string {
  const within = text.replace(WITHIN, "$1'");
  return BEGINS.test(text) ? `'${within}` : within;
}

/** A cell as RFC 4180 has it, quotes doubled; quoted also where a program that separates by something else would cut it. */
export function quoted(text: string): string {
  return /[",;|'\t\r\n\v\f\u0085\u2028\u2029]|^\s|\s$/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
