/** Hits that are known to be one drum's, of stands that stand. */
import { tuned } from './tuned';

/**
 * Of a whole take: whose hit it is has been told from all tracks at once, so nothing is sorted; and the stands of one take stand, so
 * a far push in a part of the hits is no move.
 */
export const ONE_DRUM = tuned({ 'parts.drumSorting': false, 'parts.motion': false });
