/** The browser's process that talks to the sound system: frozen, it stands for a sound server that hangs. Linux. */
import { readdirSync, readFileSync } from 'node:fs';

const textOf = (path: string): string => {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return ''; // gone meanwhile
  }
};

/** of a process; 0: it is gone */
const parentOf = (pid: number): number => Number(/^PPid:\s*(\d+)$/m.exec(textOf(`/proc/${pid}/status`))?.[1] ?? 0);

function isOurs(pid: number): boolean {
  for (let at = pid; at > 1; at = parentOf(at)) if (at === process.pid) return true;
  return false;
}

/** Ids of those that belong to browsers which this process has started. */
export const audioServices = (): number[] =>
  readdirSync('/proc')
    .map(Number)
    .filter((pid) => pid > 1 && textOf(`/proc/${pid}/cmdline`).includes('audio.mojom.AudioService') && isOurs(pid));
