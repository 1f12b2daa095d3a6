/** A sound server in place of the interface: what the system does to an input behind the page's back. */
import type { LiveFault } from './liveTrial';

export const INPUT_SYSTEM: readonly LiveFault[] = [];
