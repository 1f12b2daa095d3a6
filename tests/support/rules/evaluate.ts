/** A sum's formula with its own inputs put in, worked out apart from the program: what the panel states must give what it shows. */
import { expect } from 'vitest';
import type { Sum } from '../../../src/text/sum';

/** seconds, samples, cm, dB; a speed in cm a second */
const UNITS: Readonly<Record<string, number>> = { ms: 1e-3, mm: 0.1, 'm/s': 100 };

interface Stated {
  value: number;
  /** half of its last digit */
  open: number;
}

function stated(text: string): Stated | null {
  const found = text.replace('−', '-').match(/^±?([+-]?\d+(?:\.(\d+))?)(?: (m\/s|[a-zA-Z]+))?/);
  if (!found) return null;
  const unit = UNITS[found[3] ?? ''] ?? 1;
  return { value: Number(found[1]) * unit, open: 0.5 * 10 ** -(found[2]?.length ?? 0) * unit };
}

const TOKEN = /[A-Za-zγᴀʙ]+[₀-₉]*′?|\d+(?:\.\d+)?|\S/g;

/** @returns null: it has a word in it, or something that isn't stated */
function workOut(expression: string, inputs: ReadonlyMap<string, number>): number | null {
  let known = true;
  const asIs = expression.replace(/Re /g, '').replace(/\|([^|]+)\|/g, 'abs($1)');
  const code = [...asIs.matchAll(TOKEN)]
    .map(([token]) => {
      const value = inputs.get(token);
      if (value !== undefined) return `(${value})`;
      const same = { '·': '*', '÷': '/', '−': '-', '²': '**2', '√': 'Math.sqrt', lg: 'Math.log10', abs: 'Math.abs' }[
        token
      ];
      if (same !== undefined) return same;
      if (/^(?:\d+(?:\.\d+)?|[()+])$/.test(token)) return token;
      known = false;
      return '';
    })
    .join(' ');
  return known ? (new Function(`return ${code};`)() as number) : null;
}

/** Every formula of the sum that can be worked out, against the line that shows it; @returns which were */
export function holdsUp(sum: Sum): string[] {
  const inputs = new Map<string, Stated>();
  for (const { symbol, value } of sum.inputs) {
    const one = symbol === '' ? null : stated(value);
    if (one) inputs.set(symbol, one);
  }
  const lines = (sum.worked ?? '').split('\n');
  /** on a line of its own, on the only one, or among the inputs */
  const shownOf = (name: string, first: boolean): Stated | null => {
    const line =
      lines.find((one) => one.startsWith(`${name} = `)) ?? (first && lines.length === 1 ? lines[0] : undefined);
    const last = line
      ?.split(', shown as')[0]
      ?.split(/ = | → /)
      .at(-1);
    return last === undefined ? (inputs.get(name) ?? null) : stated(last);
  };
  const held: string[] = [];
  for (const [n, formula] of sum.formula.split(/,\s{2}/).entries()) {
    const [name, expression] = formula.split(' = ') as [string, string | undefined];
    if (expression === undefined) continue;
    for (const mark of ['', '′']) {
      const shown = shownOf(name + mark, n === 0);
      if (shown === null || (mark !== '' && !inputs.has(`${name}′`))) continue;
      const of = (moved: string | null): number | null => {
        const put = new Map(
          [...inputs].map(([symbol, { value, open }]) => [symbol, symbol === moved ? value + open : value]),
        );
        if (mark !== '')
          for (const symbol of [...put.keys()])
            if (put.has(`${symbol}′`)) put.set(symbol, put.get(`${symbol}′`) as number);
        return workOut(expression, put);
      };
      const value = of(null);
      if (value === null) continue;
      const open = [...inputs.keys()].reduce((all, symbol) => all + Math.abs((of(symbol) as number) - value), 0);
      expect(Math.abs(value - shown.value), `${sum.name}: ${formula}\n${sum.worked}`).toBeLessThanOrEqual(
        1.05 * (open + shown.open) + 1e-9,
      );
      held.push(name + mark);
      inputs.set(name + mark, shown);
    }
  }
  return held;
}
