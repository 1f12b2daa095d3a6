/** What every comparison begins with. */
import type { Version } from '../../listen/version';

/** As things stand, told as the inputs carry them. */
export const NOW: Version = { id: 'now', name: 'Now', invertB: false, delayBSamples: 0, trimBDb: 0 };
