/** What the fault bench prints. */
import { table } from '../table';
import type { Fault, Outcome } from './faultTypes';

export interface Tried {
  fault: Fault;
  /** a text: it couldn't be tried, and why */
  outcome: Outcome | string;
  seconds: number;
}

const outcomes = (all: readonly Tried[]): Outcome[] =>
  all.map(({ outcome }) => outcome).filter((one): one is Outcome => typeof one !== 'string');

function row(name: string, all: readonly Tried[]): (string | number)[] {
  const tried = outcomes(all);
  const count = (is: (one: Outcome) => boolean): number => tried.filter(is).length;
  return [
    name,
    tried.length,
    count((one) => one.told),
    count((one) => one.recovered),
    count((one) => one.wrong.length > 0),
    count((one) => one.lost.length > 0),
  ];
}

/** By kind and kind of fault. */
export function faultTable(all: readonly Tried[], minutes: string): string {
  const groups = new Map<string, Tried[]>();
  for (const one of all) {
    for (const name of [one.fault.kind, `${one.fault.kind}: ${one.fault.sub}`])
      groups.set(name, [...(groups.get(name) ?? []), one]);
  }
  const kinds = [...new Set(all.map(({ fault }) => fault.kind))];
  const names = kinds.flatMap((kind) => [kind, ...[...groups.keys()].filter((name) => name.startsWith(`${kind}: `))]);
  return table(
    `Faults on the built page, ${minutes} minutes`,
    ['faults', 'tried', 'told', 'recovered', 'wrong and sure', 'lost'],
    [...names.map((name) => row(name, groups.get(name) ?? [])), row('all', all)],
  );
}

const said = (fault: Fault): string => (typeof fault.told === 'string' ? fault.told : String(fault.told));

export const listLines = (all: readonly Tried[]): string[] =>
  all.map(({ fault, outcome, seconds }) => {
    const marks =
      typeof outcome === 'string'
        ? 'not tried'
        : [
            outcome.told ? 'told' : 'NOT TOLD',
            outcome.recovered ? 'recovered' : 'NOT RECOVERED',
            outcome.wrong.length > 0 ? 'WRONG AND SURE' : '',
            outcome.lost.length > 0 ? 'LOST' : '',
          ]
            .filter(Boolean)
            .join(', ');
    return `${fault.kind} · ${fault.sub} · ${fault.name}: ${marks} (${seconds.toFixed(0)} s)`;
  });

/** Each that isn't as it should be, and what was there instead. */
export function failureLines(all: readonly Tried[]): string[] {
  return all.flatMap(({ fault, outcome }) => {
    const name = `${fault.kind} · ${fault.sub} · ${fault.name} (${fault.how})`;
    if (typeof outcome === 'string') return [`${name}\n    could not be tried: ${outcome}`];
    const { told, recovered, wrong, lost, shown } = outcome;
    const lines = [
      ...(wrong.length > 0 ? [`wrong and sure: ${wrong.join('; ')}`] : []),
      ...(lost.length > 0 ? [`lost: ${lost.join('; ')}`] : []),
      ...(told ? [] : [`not told (expected ${said(fault)}): ${shown}`]),
      ...(recovered ? [] : [`not recovered (${fault.recovers}): ${told ? shown : ''}`]),
    ];
    return lines.length > 0 ? [[name, ...lines].join('\n    ')] : [];
  });
}
