/** The two polarities that B can have against A. */
import type { Polarity } from './reading';

export const opposite = (polarity: Polarity): Polarity => (polarity === 'same' ? 'inverted' : 'same');
