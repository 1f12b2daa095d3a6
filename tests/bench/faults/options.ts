/** `npm run bench -- faults [kind …] [--only TEXT] [--list]` */
import { KINDS, type Kind } from './faultTypes';

export interface FaultOptions {
  /** empty: all */
  kinds: Kind[];
  /** only faults with these letters in their kind of fault or name */
  only: string | null;
  /** names each that was tried, not only those that failed */
  list: boolean;
}

/** @throws RangeError for anything else */
export function faultOptions(words: readonly string[]): FaultOptions {
  const options: FaultOptions = { kinds: [], only: null, list: false };
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as string;
    if (word === '--list') options.list = true;
    else if (word === '--only' && words[i + 1]) options.only = words[++i] as string;
    else if ((KINDS as readonly string[]).includes(word)) options.kinds.push(word as Kind);
    else throw new RangeError(`No such kind of fault: ${word}. There are: ${KINDS.join(', ')}; --only TEXT, --list.`);
  }
  return options;
}
