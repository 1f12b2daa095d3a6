/** Plain text tables for the benchmarks. */
export function table(title: string, head: readonly string[], rows: readonly (readonly (string | number)[])[]): string {
  const all = [head, ...rows.map((row) => row.map(String))];
  const widths = head.map((_, c) => Math.max(...all.map((row) => (row[c] ?? '').length)));
  const line = (row: readonly string[]): string => row.map((cell, c) => cell.padEnd(widths[c] ?? 0)).join('  ');
  const [first, ...rest] = all.map(line);
  return [`\n${title}`, first, widths.map((w) => '-'.repeat(w)).join('  '), ...rest].join('\n');
}
