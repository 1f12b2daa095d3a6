/** The faults that a take's report names against those that were planted. */
import type { Fault } from '../../../src/take/model';
import type { Planted } from '../../support/take/plantFaults';

const KIND_OF: Record<Planted['kind'], Fault['kind']> = {
  inverted: 'inverted',
  late: 'late',
  dead: 'silent',
  swapped: 'swapped',
  clipped: 'clipped',
  copied: 'same-signal',
};

export interface JudgedFaults {
  /** by kind of what was planted */
  named: Partial<Record<Planted['kind'], number>>;
  missed: { kind: Planted['kind']; files: string[] }[];
  /** accused of what they don't have */
  accused: { kind: Fault['kind']; files: string[]; text: string }[];
  /** of what was named late: what is said less what is true, samples */
  lateOffSamples: number[];
}

export function judgeFaults(faults: readonly Fault[], planted: readonly Planted[], sampleRate: number): JudgedFaults {
  const judged: JudgedFaults = { named: {}, missed: [], accused: [], lateOffSamples: [] };
  const matched = new Set<Fault>();
  for (const one of planted) {
    const files = filesOf(one);
    const found = faults.filter((fault) => isOf(fault, one, files));
    for (const fault of found) matched.add(fault);
    const [first] = found;
    if (!first) {
      judged.missed.push({ kind: one.kind, files });
      continue;
    }
    judged.named[one.kind] = (judged.named[one.kind] ?? 0) + 1;
    if (one.kind === 'late' && first.samples !== null)
      judged.lateOffSamples.push(first.samples - (one.ms / 1000) * sampleRate);
  }
  for (const fault of faults) {
    const { kind, files, text } = fault;
    if (!matched.has(fault)) judged.accused.push({ kind, files, text });
  }
  return judged;
}

export function filesOf(one: Planted): string[] {
  if (one.kind === 'swapped') return [...one.files];
  return one.kind === 'copied' ? [one.of, one.file] : [one.file];
}

/** The kind must be the same, and the files exactly those. */
function isOf(fault: Fault, one: Planted, files: readonly string[]): boolean {
  if (fault.kind !== KIND_OF[one.kind]) return false;
  return fault.files.length === files.length && files.every((file) => fault.files.includes(file));
}
