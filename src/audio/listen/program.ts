/** What only listening needs, fetched when somebody wants to. */
export { openPath } from './openPath';
export { analysedSound, loopedSound, playedSound } from './sounds';
export { pairSound } from './stretchOf';
