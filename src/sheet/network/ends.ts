/** The two ends of readings, and what readings hold together. */

/** Two microphones, numbered from 0. */
export interface Ends {
  a: number;
  b: number;
}

/** Microphones that readings hold together, directly or through others. @returns the group of each, from 0, and their number */
export function groupsOf(microphones: number, readings: readonly Ends[]): { group: Int32Array; count: number } {
  const group = new Int32Array(microphones).fill(-1);
  const beside: number[][] = Array.from({ length: microphones }, () => []);
  for (const { a, b } of readings) {
    (beside[a] as number[]).push(b);
    (beside[b] as number[]).push(a);
  }
  let count = 0;
  for (let start = 0; start < microphones; start++) {
    if (group[start] !== -1) continue;
    const waiting = [start];
    group[start] = count;
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      for (const next of beside[at] as number[]) {
        if (group[next] !== -1) continue;
        group[next] = count;
        waiting.push(next);
      }
    }
    count++;
  }
  return { group, count };
}

/** The same as sets. @returns of each 1 for those in it */
export function setsOf(microphones: number, readings: readonly Ends[]): Uint8Array[] {
  const { group, count } = groupsOf(microphones, readings);
  return Array.from({ length: count }, (_, g) => Uint8Array.from(group, (of) => (of === g ? 1 : 0)));
}

/** @throws RangeError a reading names a microphone that isn't there, or one twice */
export function checkEnds(microphones: number, readings: readonly Ends[]): void {
  const there = (i: number): boolean => Number.isInteger(i) && i >= 0 && i < microphones;
  for (const { a, b } of readings)
    if (!there(a) || !there(b) || a === b) throw new RangeError(`a reading between ${a} and ${b} of ${microphones}`);
}
